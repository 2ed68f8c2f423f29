#include "calculations/calculator_groups.h"
#include "calculations/oil_volume.h"

namespace benchwarden::calculations {
namespace {

using quantities::celsius;
using quantities::kilograms_per_cubic_metre;
using quantities::litres;
using quantities::litres_of;

struct GroupCode {
  std::string_view code;
  OilGroup group;
};
constexpr GroupCode kGroups[] = {
    {"lubricating-oil", OilGroup::kLubricatingOil},
    {"crude-oil", OilGroup::kCrudeOil},
    {"fuel-oil", OilGroup::kFuelOil},
    {"jet-fuel", OilGroup::kJetFuel},
    {"transition", OilGroup::kTransition},
    {"gasoline", OilGroup::kGasoline},
};

OilGroup group_of(const Inputs& in) {
  const std::string& code = in.code("product_group");
  for (const GroupCode& one : kGroups) {
    if (one.code == code) return one.group;
  }
  return OilGroup::kLubricatingOil;  // the rule lets no other code through
}

Outcome<Values> correction(const Inputs& in) {
  const auto factor =
      oil_correction_15c(group_of(in), kilograms_per_cubic_metre(in.number("density_15c_kg_m3")),
                         celsius(in.number("temperature_c")));
  if (!factor) return factor.error();
  return Values{{"vcf", *factor}};
}

Outcome<Values> density(const Inputs& in) {
  const auto found =
      oil_density_15c(group_of(in), kilograms_per_cubic_metre(in.number("density_kg_m3")),
                      celsius(in.number("temperature_c")));
  if (!found) return found.error();
  return Values{{"density_15c_kg_m3", found->si()}};
}

Outcome<Values> mass(const Inputs& in) {
  const MeasuredOil oil{litres(in.number("volume_l")),
                        kilograms_per_cubic_metre(in.number("density_15c_kg_m3")),
                        celsius(in.number("temperature_c")),
                        litres(in.number("volume_uncertainty_l")),
                        kilograms_per_cubic_metre(in.number("density_uncertainty_kg_m3")),
                        quantities::Temperature(in.number("temperature_uncertainty_c"))};
  const auto found = oil_mass(group_of(in), oil);
  if (!found) return found.error();
  return Values{
      {"vcf", found->factor},
      {"volume_15c_l", litres_of(found->volume_15c)},
      {"volume_15c_expanded_uncertainty_l", litres_of(found->volume_expanded_uncertainty)},
      {"mass_kg", found->mass.si()},
      {"mass_expanded_uncertainty_kg", found->mass_expanded_uncertainty.si()}};
}

InputRule group_input() {
  std::vector<std::string_view> codes;
  for (const GroupCode& one : kGroups) codes.push_back(one.code);
  return code_input("product_group", std::move(codes));
}

}  // namespace

std::vector<Calculator> oil_calculators() {
  const InputRule temperature = number_input("temperature_c", -50, 150);
  const InputRule density_15c = number_input("density_15c_kg_m3", 600, 1200);
  return {
      {"oil-correction", {density_15c, temperature, group_input()}, correction},
      {"oil-density",
       {number_input("density_kg_m3", 500, 1300), temperature, group_input()},
       density},
      {"oil-mass",
       {number_input("volume_l", 0, 1000000), density_15c, temperature, group_input(),
        number_input("volume_uncertainty_l", 0, 100000),
        number_input("density_uncertainty_kg_m3", 0, 50),
        number_input("temperature_uncertainty_c", 0, 20)},
       mass},
  };
}

}  // namespace benchwarden::calculations
