#include "forms/told_amounts.h"

#include <algorithm>
#include <string_view>

#include "forms/shown.h"

namespace benchwarden::forms {
namespace {

using quantities::Quantity;
using quantities::Unit;

enum class Towards { kLess, kMore };

bool site_says(std::string_view attribute, std::string_view code,
               const Surroundings& surroundings) {
  const auto site = surroundings.thing("workshop", "site");
  const auto* value =
      site ? entries::find_field_as<entries::Code>(site->attributes, attribute) : nullptr;
  return value != nullptr && value->slug == code;
}

/// Three digits that count are as many as anybody measures.
std::int64_t three_digits(std::int64_t thousandths, Towards towards) {
  constexpr std::int64_t kBeyond = 1000;
  std::int64_t step = 1;
  while (thousandths / step >= kBeyond || thousandths / step <= -kBeyond) step *= 10;
  const std::int64_t rest = ((thousandths % step) + step) % step;
  if (rest == 0) return thousandths;
  return thousandths - rest + (towards == Towards::kMore ? step : 0);
}

Quantity rounded(const Quantity& quantity, const Unit& unit, Towards towards) {
  const auto converted = quantities::convert(quantity, unit);
  if (!converted) return quantity;
  Quantity result = *converted;
  const auto back = quantities::convert(result, *quantity.unit);
  if (back && towards == Towards::kLess && back->value > quantity.value) --result.value.thousandths;
  if (back && towards == Towards::kMore && back->value < quantity.value) ++result.value.thousandths;
  result.value.thousandths = three_digits(result.value.thousandths, towards);
  return result;
}

std::string with_site_sign(std::string text, base::Decimal number,
                           const Surroundings& surroundings) {
  constexpr std::int64_t kWhole = 1000;
  // The number comes first, so that the first point is its own.
  if (number.thousandths % kWhole != 0 && site_says("number_format", "comma", surroundings)) {
    text[text.find('.')] = ',';
  }
  return text;
}

}  // namespace

Quantity as_typed(const ReadForm& form, const std::string& path, const Quantity& read) {
  const auto found = std::find_if(form.as_read.begin(), form.as_read.end(),
                                  [&](const auto& one) { return one.field == path; });
  return found == form.as_read.end() ? read
                                     : Quantity{found->value, quantities::find_unit(found->unit)};
}

const Unit& small_volume_unit(const Surroundings& surroundings) {
  return *quantities::find_unit(site_says("units", "us", surroundings) ? "fl_oz_us" : "ml");
}

std::string told_amount(const Quantity& quantity, const Surroundings& surroundings) {
  return with_site_sign(shown_amount(quantity.value, *quantity.unit), quantity.value, surroundings);
}

Quantity rounded_down(const Quantity& quantity, const Unit& unit) {
  return rounded(quantity, unit, Towards::kLess);
}

std::string told_band(const Band& band, const Unit& of, const Unit& unit,
                      const Surroundings& surroundings) {
  Quantity lowest{band.lowest, &of};
  Quantity highest{band.highest, &of};
  if (&of != &unit) {
    lowest = rounded(lowest, unit, Towards::kMore);
    highest = rounded(highest, unit, Towards::kLess);
  }
  return with_site_sign(shown_number(lowest.value), lowest.value, surroundings) + " {to} " +
         told_amount(highest, surroundings);
}

}  // namespace benchwarden::forms
