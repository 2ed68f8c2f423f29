#include "rules/showing.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "quantities/units.h"

namespace benchwarden::rules {

findings::Shown shown(base::Decimal value, std::string_view unit) {
  return {base::format_decimal(value), std::string(unit)};
}
findings::Shown shown(const RuleFigure& figure) { return shown(figure.value, figure.unit); }
findings::Shown shown(base::CivilDate day) { return {base::format_date(day), ""}; }
findings::Shown shown_days(int days) { return {std::to_string(days), "d"}; }
findings::Shown shown_word(std::string_view word) { return {std::string(word), ""}; }
findings::Shown shown_code(std::string_view code, std::string_view field) {
  return {std::string(code), "", std::string(field)};
}

findings::Shown shown_amount(std::int64_t amount, bool by_volume) {
  if (by_volume) return shown(quantities::in_litres(quantities::Microlitres(amount)), "l");
  return shown(quantities::in_kilograms(quantities::Milligrams(amount)), "kg");
}

findings::Shown shown_exactly(std::int64_t amount, bool by_volume) {
  constexpr std::uint64_t kInOne = 1'000'000;
  const auto size = static_cast<std::uint64_t>(amount < 0 ? -amount : amount);
  std::string places = std::to_string(kInOne + size % kInOne).substr(1);
  while (!places.empty() && places.back() == '0') places.pop_back();
  const std::string value = (amount < 0 ? "-" : "") + std::to_string(size / kInOne) +
                            (places.empty() ? "" : ".") + places;
  return {value, by_volume ? "l" : "kg"};
}

findings::Values shown_apart(std::int64_t measured, std::int64_t limit, bool by_volume) {
  const bool alike = shown_amount(measured, by_volume) == shown_amount(limit, by_volume);
  const auto show = alike && measured != limit ? shown_exactly : shown_amount;
  return {{"measured", show(measured, by_volume)}, {"limit", show(limit, by_volume)}};
}

findings::Shown shown_number(double value, std::string_view unit) {
  constexpr double kMax = 999'999'999'999.0;
  const double thousandths = std::round(std::clamp(value, -kMax, kMax) * 1000);
  return shown(base::Decimal{static_cast<std::int64_t>(thousandths)}, unit);
}

findings::Shown shown_below(double value, double limit, std::string_view unit) {
  constexpr double kShown = 1e3;
  constexpr double kFine = 1e9;
  if (std::round(value * kShown) / kShown < limit) return shown_number(value, unit);
  std::array<char, 64> text{};
  const double rounded = std::floor(value * kFine) / kFine;
  const auto end = std::to_chars(text.begin(), text.end(), rounded, std::chars_format::fixed).ptr;
  return {std::string(text.begin(), end), std::string(unit)};
}

base::Instant just_after(base::Instant at) {
  return at.ms == INT64_MAX ? at : base::Instant{at.ms + 1};
}

}  // namespace benchwarden::rules
