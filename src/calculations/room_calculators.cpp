#include "calculations/calculator_groups.h"
#include "calculations/nitrogen_content.h"
#include "calculations/oxygen.h"
#include "calculations/vapour.h"

namespace benchwarden::calculations {
namespace {

using quantities::celsius;
using quantities::cubic_metres;
using quantities::Volume;

/// The same refusal under the name of the input it comes from.
Refusal about(const char* input, Refusal refusal) {
  refusal.name = input;
  return refusal;
}

/// The gas as given, or what the cylinder holds at the temperature and pressure of the room.
Outcome<Volume> released_gas(const Inputs& in) {
  if (const auto given = in.maybe_number("gas_volume_m3")) {
    if (!in.has("water_capacity_l") && !in.has("gauge_pressure_bar")) return cubic_metres(*given);
    return Refusal{RefusalCode::kNoSolution, "gas_volume_m3"};  // which of the two?
  }
  for (const char* name : {"water_capacity_l", "gauge_pressure_bar"}) {
    if (!in.has(name)) return Refusal{RefusalCode::kMissing, name};
  }
  const auto temperature = celsius(in.number("temperature_c"));
  const auto atmosphere = quantities::bar_absolute(in.number("atmosphere_bar"));
  const auto mass = nitrogen_mass(
      quantities::litres(in.number("water_capacity_l")),
      absolute(quantities::bar_gauge(in.number("gauge_pressure_bar")), atmosphere), temperature);
  if (!mass) return mass.error();
  return nitrogen_volume(*mass, {temperature, atmosphere});
}

std::string level_code(double oxygen, double first, double second) {
  if (oxygen < second) return "below-second-level";
  return oxygen < first ? "below-first-level" : "not-below-first-level";
}

Outcome<Values> after_release(const Inputs& in) {
  const auto gas = released_gas(in);
  if (!gas) return gas.error();
  const double baseline = in.number("baseline_percent");
  const auto oxygen =
      oxygen_after_release(cubic_metres(in.number("room_volume_m3")), *gas, baseline);
  if (!oxygen) return oxygen.error();
  const double first = in.number("first_level_percent");
  const double second = in.number("second_level_percent");
  if (first <= second) {
    return Refusal{RefusalCode::kContradicts, "first_level_percent", first, second, baseline};
  }
  const auto upper = smallest_air_volume(*gas, first, baseline);
  if (!upper) return about("first_level_percent", upper.error());
  const auto lower = smallest_air_volume(*gas, second, baseline);
  if (!lower) return about("second_level_percent", lower.error());
  return Values{{"gas_volume_m3", gas->si()},
                {"oxygen_percent", *oxygen},
                {"oxygen_level", level_code(*oxygen, first, second)},
                {"first_level_room_m3", upper->si()},
                {"second_level_room_m3", lower->si()}};
}

Outcome<Values> at_leak(const Inputs& in) {
  constexpr double kMinutesPerHour = 60;
  constexpr double kLitresPerCubicMetre = 1000;
  const double leak = in.number("leak_l_per_min") * kMinutesPerHour / kLitresPerCubicMetre;
  const Volume room = cubic_metres(in.number("room_volume_m3"));
  const double baseline = in.number("baseline_percent");
  const auto oxygen = oxygen_at_steady_leak(room, leak, in.number("air_changes_per_h"), baseline);
  if (!oxygen) return oxygen.error();
  const auto changes = air_changes_for(room, leak, in.number("floor_percent"), baseline);
  if (!changes) return changes.error();
  return Values{{"leak_m3_per_h", leak},
                {"oxygen_percent", *oxygen},
                {"air_changes_needed_per_h", *changes},
                {"air_needed_m3_per_h", *changes * room.si()}};
}

Outcome<Values> spill(const Inputs& in) {
  constexpr double kPercent = 100;
  constexpr double kPpmPerPercent = 1e4;
  const Solvent solvent{in.number("molar_mass_g_mol"), in.number("lower_limit_percent"),
                        in.maybe_number("vapour_pressure_kpa")};
  const quantities::Mass mass = quantities::kilograms_per_cubic_metre(in.number("density_kg_m3")) *
                                quantities::litres(in.number("spilled_l"));
  const auto found = spill_vapour(cubic_metres(in.number("room_volume_m3")), mass, solvent,
                                  celsius(in.number("temperature_c")),
                                  quantities::bar_absolute(in.number("atmosphere_bar")));
  if (!found) return found.error();
  Values values{{"spilled_kg", mass.si()},
                {"vapour_m3", found->vapour.si()},
                {"concentration_percent", found->concentration_percent},
                {"concentration_ppm", found->concentration_percent * kPpmPerPercent},
                {"share_of_lower_limit_percent", found->share_of_lower_limit * kPercent}};
  if (found->saturation_percent) {
    values.push_back(
        {"uncut_share_of_lower_limit_percent", found->uncut_share_of_lower_limit * kPercent});
    values.push_back({"saturation_percent", *found->saturation_percent});
  }
  return values;
}

std::string category_code(FlashPointCategory category) {
  if (category == FlashPointCategory::kNone) return "none";
  return "category-" + std::to_string(static_cast<int>(category));
}

Outcome<Values> flash_point(const Inputs& in) {
  const auto flash = celsius(in.number("flash_point_c"));
  const auto boiling = celsius(in.number("boiling_point_c"));
  return Values{{"osha_category", category_code(osha_category(flash, boiling))},
                {"clp_category", category_code(clp_category(flash, boiling))}};
}

InputRule room_input() { return number_input("room_volume_m3", 1, 100000); }
InputRule percent_input(std::string_view name) { return number_input(name, 0, 25); }
InputRule baseline_input() { return number_input("baseline_percent", 15, 25); }

}  // namespace

std::vector<Calculator> room_calculators() {
  return {
      {"oxygen-after-release",
       {room_input(), optional(number_input("gas_volume_m3", 0, 10000)),
        optional(number_input("water_capacity_l", 0.01, 3000)),
        optional(number_input("gauge_pressure_bar", 0, 350)),
        number_input("temperature_c", -20, 50), number_input("atmosphere_bar", 0.5, 1.1),
        baseline_input(), percent_input("first_level_percent"),
        percent_input("second_level_percent")},
       after_release},
      {"oxygen-at-leak",
       {room_input(), number_input("leak_l_per_min", 0, 100000),
        number_input("air_changes_per_h", 0.01, 1000), baseline_input(),
        percent_input("floor_percent")},
       at_leak},
      {"spill-vapour",
       {room_input(), number_input("spilled_l", 0, 1000), number_input("density_kg_m3", 400, 2000),
        number_input("molar_mass_g_mol", 10, 1000), number_input("lower_limit_percent", 0.1, 50),
        optional(number_input("vapour_pressure_kpa", 0.0001, 100)),
        number_input("temperature_c", -20, 50), number_input("atmosphere_bar", 0.5, 1.1)},
       spill},
      {"flash-point",
       {number_input("flash_point_c", -100, 400), number_input("boiling_point_c", -100, 700)},
       flash_point},
  };
}

}  // namespace benchwarden::calculations
