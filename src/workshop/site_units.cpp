#include "workshop/site_units.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>
#include <vector>

#include "quantities/converted.h"
#include "quantities/units.h"

namespace benchwarden::workshop {
namespace {

using quantities::find_unit;
using quantities::Unit;

std::string site_code(const tallies::State& state, std::string_view name, std::string otherwise) {
  const tallies::Thing* site = state.thing("workshop", "site");
  if (site == nullptr) return otherwise;
  const auto* code = entries::find_field_as<entries::Code>(site->attributes, name);
  return code == nullptr ? otherwise : code->slug;
}

/// What a workshop that measures in US units reads in the place of this unit; nullptr: the same.
const Unit* us_unit(std::string_view id) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 10> kInPlaceOf{{
      {"ml", "fl_oz_us"},
      {"l", "gal_us"},
      {"m3", "ft3"},
      {"g", "oz"},
      {"kg", "lb"},
      {"bar", "psi"},
      {"c", "f"},
      {"mm", "in"},
      {"m", "ft"},
      {"kg_m3", "lb_gal_us"},
  }};
  const auto* found = std::find_if(kInPlaceOf.begin(), kInPlaceOf.end(),
                                   [&](const auto& one) { return one.first == id; });
  return found == kInPlaceOf.end() ? nullptr : find_unit(found->second);
}

std::string fixed(double value, int places) {
  std::array<char, 64> buffer{};
  const auto written =
      std::to_chars(buffer.begin(), buffer.end(), value, std::chars_format::fixed, places);
  std::string text(buffer.begin(), written.ptr);
  if (places > 0) {
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

struct Amount {
  findings::Shown* shown;
  double value;  ///< in the unit it is to be shown in
};

/// Places that show three digits of the least amount.
int places_for(const std::vector<Amount>& amounts) {
  constexpr int kDigits = 3;
  int places = 0;
  for (const Amount& amount : amounts) {
    if (amount.value == 0) continue;
    const int exponent = static_cast<int>(std::floor(std::log10(std::abs(amount.value))));
    places = std::max(places, kDigits - 1 - exponent);
  }
  return places;
}

/// True when two amounts that differ would look the same.
bool look_alike(const std::vector<Amount>& amounts, int places) {
  for (const Amount& one : amounts) {
    for (const Amount& other : amounts) {
      const bool differ = one.shown->value != other.shown->value;
      if (differ && fixed(one.value, places) == fixed(other.value, places)) return true;
    }
  }
  return false;
}

/// Writes amounts of one unit in another.
void convert_all(std::vector<Amount>& amounts, const Unit& to) {
  constexpr int kPlacesMax = 9;
  int places = std::min(places_for(amounts), kPlacesMax);
  while (places < kPlacesMax && look_alike(amounts, places)) ++places;
  for (const Amount& amount : amounts) {
    *amount.shown = {fixed(amount.value, places), std::string(to.id), amount.shown->field};
  }
}

}  // namespace

ShownIn shown_in_of(const tallies::State& state) {
  ShownIn shown_in;
  shown_in.units = site_code(state, "units", shown_in.units);
  shown_in.number_format = site_code(state, "number_format", shown_in.number_format);
  return shown_in;
}

findings::Values in_site_units(findings::Values values, const ShownIn& shown_in) {
  if (shown_in.units != "us") return values;
  std::map<std::string, std::vector<Amount>> by_unit;
  for (auto& [name, shown] : values) {
    const Unit* to = us_unit(shown.unit);
    double value = 0;
    const char* end = shown.value.data() + shown.value.size();
    const bool read = std::from_chars(shown.value.data(), end, value).ptr == end;
    if (to == nullptr || !read) continue;
    by_unit[shown.unit].push_back(
        {&shown, quantities::converted(value, *find_unit(shown.unit), *to)});
  }
  for (auto& [unit, amounts] : by_unit) convert_all(amounts, *us_unit(unit));
  return values;
}

}  // namespace benchwarden::workshop
