#include "rules/showing.h"

#include <algorithm>
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

findings::Shown shown_amount(std::int64_t amount, bool by_volume) {
  if (by_volume) return shown(quantities::in_litres(quantities::Microlitres(amount)), "l");
  return shown(quantities::in_kilograms(quantities::Milligrams(amount)), "kg");
}

findings::Shown shown_number(double value, std::string_view unit) {
  constexpr double kMax = 999'999'999'999.0;
  const double thousandths = std::round(std::clamp(value, -kMax, kMax) * 1000);
  return shown(base::Decimal{static_cast<std::int64_t>(thousandths)}, unit);
}

base::Instant just_after(base::Instant at) {
  return at.ms == INT64_MAX ? at : base::Instant{at.ms + 1};
}

}  // namespace benchwarden::rules
