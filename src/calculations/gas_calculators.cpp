#include "calculations/calculator_groups.h"
#include "calculations/nitrogen_content.h"
#include "calculations/nitrogen_loss.h"
#include "calculations/nitrogen_state.h"
#include "calculations/stored_energy.h"

namespace benchwarden::calculations {
namespace {

using quantities::AbsolutePressure;
using quantities::bar_absolute;
using quantities::bar_gauge;
using quantities::celsius;
using quantities::kilograms;
using quantities::litres;

AbsolutePressure atmosphere(const Inputs& in) { return bar_absolute(in.number("atmosphere_bar")); }

AbsolutePressure cylinder_pressure(const Inputs& in, std::string_view name) {
  return absolute(bar_gauge(in.number(name)), atmosphere(in));
}

Outcome<Values> state(const Inputs& in) {
  const auto found =
      nitrogen_state(quantities::kelvin(in.number("temperature_k")),
                     quantities::megapascals_absolute(in.number("absolute_pressure_mpa")));
  if (!found) return found.error();
  return Values{{"density_kg_m3", found->density.si()},
                {"compressibility", found->compressibility}};
}

Outcome<Values> content(const Inputs& in) {
  const AbsolutePressure pressure = cylinder_pressure(in, "gauge_pressure_bar");
  const auto temperature = celsius(in.number("temperature_c"));
  const auto capacity = litres(in.number("water_capacity_l"));
  const auto found = nitrogen_state(temperature, pressure);
  if (!found) return found.error();
  const quantities::Mass mass = found->density * capacity;
  const auto volume = nitrogen_volume(mass, {celsius(in.number("base_temperature_c")),
                                             bar_absolute(in.number("base_pressure_bar"))});
  if (!volume) return volume.error();
  Values values{{"absolute_pressure_bar", quantities::bar_absolute_of(pressure)},
                {"density_kg_m3", found->density.si()},
                {"compressibility", found->compressibility},
                {"mass_kg", mass.si()},
                {"volume_m3", volume->si()}};
  if (const auto share = nitrogen_density_uncertainty(temperature, pressure)) {
    constexpr double kPercent = 100;
    values.push_back({"equation_uncertainty_percent", *share * kPercent});
  }
  return values;
}

/// No gauge shows more than its span.
base::Status<Refusal> check_span(const Inputs& in) {
  const double span = in.number("gauge_span_bar");
  for (const char* name : {"first_gauge_pressure_bar", "second_gauge_pressure_bar"}) {
    const double reading = in.number(name);
    if (reading > span) return Refusal{RefusalCode::kContradicts, name, reading, 0, span};
  }
  return base::Done{};
}

Outcome<Values> loss(const Inputs& in) {
  if (const auto fits = check_span(in); !fits) return fits.error();
  const AbsolutePressure reading_uncertainty = gauge_reading_uncertainty(
      in.number("gauge_class_percent"), bar_gauge(in.number("gauge_span_bar")),
      bar_gauge(in.number("gauge_resolution_bar")));
  const quantities::Temperature temperature_uncertainty(in.number("temperature_uncertainty_c"));
  const auto reading = [&](std::string_view pressure, std::string_view temperature) {
    return CylinderReading{cylinder_pressure(in, pressure), celsius(in.number(temperature)),
                           reading_uncertainty, temperature_uncertainty};
  };
  constexpr double kPercent = 100;
  const auto found = nitrogen_loss(
      litres(in.number("water_capacity_l")), in.number("capacity_uncertainty_percent") / kPercent,
      reading("first_gauge_pressure_bar", "first_temperature_c"),
      reading("second_gauge_pressure_bar", "second_temperature_c"),
      kilograms(in.number("logged_use_kg")), kilograms(in.number("loss_of_interest_kg")));
  if (!found) return found.error();
  return Values{{"gauge_uncertainty_bar", quantities::bar_absolute_of(reading_uncertainty)},
                {"first_mass_kg", found->first.si()},
                {"second_mass_kg", found->second.si()},
                {"used_kg", (found->first - found->second).si()},
                {"loss_kg", found->loss.si()},
                {"expanded_uncertainty_kg", found->expanded_uncertainty.si()},
                {"verdict", std::string(verdict_code(found->verdict))}};
}

Outcome<Values> charges(const Inputs& in) {
  const auto found = charges_left(
      litres(in.number("water_capacity_l")), bar_gauge(in.number("gauge_pressure_bar")),
      {litres(in.number("gas_space_l")), bar_gauge(in.number("charge_pressure_bar"))},
      celsius(in.number("temperature_c")), atmosphere(in));
  if (!found) return found.error();
  return Values{{"usable_kg", found->usable.si()},
                {"per_charge_kg", found->per_charge.si()},
                {"charges", found->count}};
}

Outcome<Values> energy(const Inputs& in) {
  const AbsolutePressure pressure = cylinder_pressure(in, "gauge_pressure_bar");
  const auto volume = litres(in.number("gas_volume_l"));
  const auto isentropic = isentropic_energy(volume, pressure, atmosphere(in));
  if (!isentropic) return isentropic.error();
  const auto brode = brode_energy(volume, pressure, atmosphere(in));
  if (!brode) return brode.error();
  const auto isothermal = isothermal_energy(volume, pressure, atmosphere(in));
  if (!isothermal) return isothermal.error();
  return Values{{"absolute_pressure_bar", quantities::bar_absolute_of(pressure)},
                {"isentropic_energy_j", isentropic->si()},
                {"brode_energy_j", brode->si()},
                {"isothermal_energy_j", isothermal->si()}};
}

InputRule atmosphere_input() { return number_input("atmosphere_bar", 0.5, 1.1); }
InputRule capacity_input() { return number_input("water_capacity_l", 0.01, 3000); }
InputRule pressure_input(std::string_view name) { return number_input(name, 0, 350); }
InputRule temperature_input(std::string_view name) { return number_input(name, -20, 50); }

}  // namespace

std::vector<Calculator> gas_calculators() {
  return {
      {"nitrogen-state",
       {number_input("temperature_k", 253.15, 323.15),
        number_input("absolute_pressure_mpa", 0, 35)},
       state},
      {"nitrogen-content",
       {capacity_input(), pressure_input("gauge_pressure_bar"), temperature_input("temperature_c"),
        atmosphere_input(), temperature_input("base_temperature_c"),
        number_input("base_pressure_bar", 0.5, 1.1)},
       content},
      {"nitrogen-loss",
       {capacity_input(), number_input("capacity_uncertainty_percent", 0, 10),
        pressure_input("first_gauge_pressure_bar"), temperature_input("first_temperature_c"),
        pressure_input("second_gauge_pressure_bar"), temperature_input("second_temperature_c"),
        number_input("gauge_class_percent", 0, 10), number_input("gauge_span_bar", 0.1, 1600),
        number_input("gauge_resolution_bar", 0, 50),
        number_input("temperature_uncertainty_c", 0, 10), number_input("logged_use_kg", 0, 1000),
        number_input("loss_of_interest_kg", 0, 1000), atmosphere_input()},
       loss},
      {"nitrogen-charges",
       {capacity_input(), pressure_input("gauge_pressure_bar"), temperature_input("temperature_c"),
        number_input("gas_space_l", 0.0001, 100), number_input("charge_pressure_bar", 0.1, 350),
        atmosphere_input()},
       charges},
      {"stored-energy",
       {number_input("gas_volume_l", 0.0001, 3000), number_input("gauge_pressure_bar", 0, 1000),
        atmosphere_input()},
       energy},
  };
}

}  // namespace benchwarden::calculations
