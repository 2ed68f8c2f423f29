#include "calculations/stored_energy.h"

#include <cmath>

namespace benchwarden::calculations {
namespace {

using quantities::AbsolutePressure;
using quantities::Energy;
using quantities::Volume;

base::Status<Refusal> check(Volume volume, AbsolutePressure pressure, AbsolutePressure atmosphere) {
  constexpr double kPascalsMax = 1e9;
  constexpr double kCubicMetresMax = 1e6;
  if (auto fits = within("volume_m3", volume.si(), 0, kCubicMetresMax); !fits) return fits;
  if (auto fits = within("atmosphere_pa", atmosphere.si(), 1e3, kPascalsMax); !fits) {
    return fits;
  }
  return within("pressure_pa", pressure.si(), atmosphere.si(), kPascalsMax);
}

}  // namespace

Outcome<Energy> isentropic_energy(Volume volume, AbsolutePressure pressure,
                                  AbsolutePressure atmosphere) {
  if (const auto fits = check(volume, pressure, atmosphere); !fits) return fits.error();
  constexpr double kExponent = (kHeatCapacityRatio - 1) / kHeatCapacityRatio;
  return Energy(pressure.si() * volume.si() / (kHeatCapacityRatio - 1) *
                (1 - std::pow(atmosphere / pressure, kExponent)));
}

Outcome<Energy> brode_energy(Volume volume, AbsolutePressure pressure,
                             AbsolutePressure atmosphere) {
  if (const auto fits = check(volume, pressure, atmosphere); !fits) return fits.error();
  return Energy((pressure - atmosphere).si() * volume.si() / (kHeatCapacityRatio - 1));
}

Outcome<Energy> isothermal_energy(Volume volume, AbsolutePressure pressure,
                                  AbsolutePressure atmosphere) {
  if (const auto fits = check(volume, pressure, atmosphere); !fits) return fits.error();
  return Energy(pressure.si() * volume.si() * std::log(pressure / atmosphere));
}

}  // namespace benchwarden::calculations
