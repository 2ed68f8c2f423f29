#include "calculations/vapour.h"

#include <algorithm>

namespace benchwarden::calculations {
namespace {

using quantities::AbsolutePressure;
using quantities::celsius;
using quantities::celsius_of;
using quantities::Mass;
using quantities::Temperature;
using quantities::Volume;

constexpr double kMolarGasConstant = 8.314462618;  // J/(mol K), CODATA 2018

base::Status<Refusal> check(Volume room, Mass spilled, const Solvent& solvent,
                            Temperature temperature, AbsolutePressure pressure) {
  struct Range {
    const char* name;
    double value, low, high;
  };
  const Range ranges[] = {
      {"room_m3", room.si(), 1e-3, 1e6},
      {"mass_kg", spilled.si(), 0, 1e4},
      {"molar_mass_g_mol", solvent.molar_mass_g_mol, 2, 1000},
      {"lower_limit_percent", solvent.lower_limit_percent, 0.01, 50},
      {"temperature_c", celsius_of(temperature), -40, 60},
      {"atmosphere_bar", quantities::bar_absolute_of(pressure), 0.5, 1.1},
  };
  for (const Range& range : ranges) {
    auto fits = within(range.name, range.value, range.low, range.high);
    if (!fits) return fits;
  }
  const double vapour_pressure = solvent.vapour_pressure_kpa.value_or(0);
  constexpr double kPascalsPerKilopascal = 1e3;
  const double air_pressure = pressure.si() / kPascalsPerKilopascal;
  if (vapour_pressure >= 0 && vapour_pressure < air_pressure) return base::Done{};
  return Refusal{RefusalCode::kContradicts, "vapour_pressure_kpa", vapour_pressure, 0,
                 air_pressure};
}

}  // namespace

Outcome<Vapour> spill_vapour(Volume room, Mass spilled, const Solvent& solvent,
                             Temperature temperature, AbsolutePressure pressure) {
  if (const auto fits = check(room, spilled, solvent, temperature, pressure); !fits) {
    return fits.error();
  }
  const double moles = spilled.si() * 1e3 / solvent.molar_mass_g_mol;
  Vapour vapour;
  vapour.vapour = Volume(moles * kMolarGasConstant * temperature.si() / pressure.si());
  vapour.concentration_percent = std::min(100.0, 100 * (vapour.vapour / room));
  vapour.uncut_share_of_lower_limit = vapour.concentration_percent / solvent.lower_limit_percent;
  if (solvent.vapour_pressure_kpa) {
    const double pascals = *solvent.vapour_pressure_kpa * 1e3;
    vapour.saturation_percent = 100 * pascals / pressure.si();
    vapour.concentration_percent =
        std::min(vapour.concentration_percent, *vapour.saturation_percent);
  }
  vapour.share_of_lower_limit = vapour.concentration_percent / solvent.lower_limit_percent;
  return vapour;
}

FlashPointCategory clp_category(Temperature flash_point, Temperature boiling_point) {
  if (flash_point < celsius(23)) {
    return boiling_point <= celsius(35) ? FlashPointCategory::k1 : FlashPointCategory::k2;
  }
  return flash_point <= celsius(60) ? FlashPointCategory::k3 : FlashPointCategory::kNone;
}

FlashPointCategory osha_category(Temperature flash_point, Temperature boiling_point) {
  const FlashPointCategory category = clp_category(flash_point, boiling_point);
  const bool fourth = category == FlashPointCategory::kNone && flash_point <= celsius(93);
  return fourth ? FlashPointCategory::k4 : category;
}

}  // namespace benchwarden::calculations
