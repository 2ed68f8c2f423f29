#include "workshop/calculation_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "base/text.h"
#include "calculations/statistics.h"
#include "quantities/units.h"

namespace benchwarden::workshop {
namespace {

/// From this many digits on, zeros at the end say nothing any more.
constexpr int kDigitsPlain = 10;

std::string number_text(double value, int digits) {
  if (digits < kDigitsPlain) return rounded_number(value, digits);
  double read = 0;
  const std::string rounded = rounded_number(value, digits);
  std::from_chars(rounded.data(), rounded.data() + rounded.size(), read);
  return plain_number(read);
}

std::string list_text(const std::vector<double>& list, int digits) {
  constexpr std::size_t kShownMax = 16;
  if (list.size() > kShownMax) {
    return std::to_string(list.size()) + " values, together " +
           rounded_number(calculations::sum(list), 6);
  }
  std::vector<std::string> parts;
  parts.reserve(list.size());
  for (const double value : list) parts.push_back(number_text(value, digits));
  return base::join(parts, "; ");
}

std::string words_for(const std::string& code, const std::vector<forms::CodeOption>& words) {
  const auto found = std::find_if(words.begin(), words.end(),
                                  [&](const forms::CodeOption& one) { return one.code == code; });
  return found == words.end() ? code : found->label;
}

}  // namespace

std::string plain_number(double value) {
  std::array<char, 64> buffer{};
  const double size = std::abs(value);
  const auto written =
      size != 0 && (size >= 1e15 || size < 1e-6)
          ? std::to_chars(buffer.begin(), buffer.end(), value)
          : std::to_chars(buffer.begin(), buffer.end(), value, std::chars_format::fixed);
  return {buffer.begin(), written.ptr};
}

std::string rounded_number(double value, int digits) {
  if (value == 0) return "0";
  const int exponent = static_cast<int>(std::floor(std::log10(std::abs(value))));
  if (exponent > 14 || exponent < -9) {
    std::array<char, 64> buffer{};
    const auto written = std::to_chars(buffer.begin(), buffer.end(), value,
                                       std::chars_format::scientific, digits - 1);
    return {buffer.begin(), written.ptr};
  }
  const int places = std::max(0, digits - 1 - exponent);
  std::array<char, 64> buffer{};
  const auto written =
      std::to_chars(buffer.begin(), buffer.end(), value, std::chars_format::fixed, places);
  return {buffer.begin(), written.ptr};
}

std::string choice_label(const forms::CalculationInput& input, std::string_view code) {
  for (const forms::CodeOption& choice : input.choices) {
    if (choice.code == code) return choice.label;
  }
  const quantities::Unit* unit = quantities::find_unit(code);
  return unit == nullptr ? "" : std::string(unit->symbol);
}

std::string shortened(const std::string& text) {
  constexpr std::size_t kBytesMax = 60;
  if (text.size() <= kBytesMax) return text;
  std::size_t end = kBytesMax;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  return text.substr(0, end) + "…";
}

std::string value_text(const calculations::Value& value, int digits,
                       const std::vector<forms::CodeOption>& words) {
  if (const auto* number = std::get_if<double>(&value)) return number_text(*number, digits);
  if (const auto* list = std::get_if<std::vector<double>>(&value)) return list_text(*list, digits);
  if (const auto* date = std::get_if<base::CivilDate>(&value)) return base::format_date(*date);
  return words_for(*std::get_if<std::string>(&value), words);
}

}  // namespace benchwarden::workshop
