#include "calculations/oxygen.h"

#include <algorithm>

namespace benchwarden::calculations {
namespace {

using quantities::Volume;

constexpr double kAnyVolume = 1e9;  // m³; more than any room

base::Status<Refusal> check_room(Volume air_volume, double baseline_percent) {
  if (auto fits = within("air_volume_m3", air_volume.si(), 1e-6, kAnyVolume); !fits) {
    return fits;
  }
  return within("baseline_percent", baseline_percent, 1e-6, 100);
}

base::Status<Refusal> check_floor(double floor_percent, double baseline_percent) {
  if (auto fits = within("baseline_percent", baseline_percent, 1e-6, 100); !fits) {
    return fits;
  }
  if (floor_percent >= 0 && floor_percent < baseline_percent) return base::Done{};
  return Refusal{RefusalCode::kOutOfRange, "floor_percent", floor_percent, 0, baseline_percent};
}

}  // namespace

Outcome<double> oxygen_after_release(Volume air_volume, Volume gas, double baseline_percent) {
  if (const auto fits = check_room(air_volume, baseline_percent); !fits) return fits.error();
  if (const auto fits = within("gas_volume_m3", gas.si(), 0, kAnyVolume); !fits) {
    return fits.error();
  }
  return std::max(0.0, baseline_percent * (1 - gas / air_volume));
}

Outcome<Volume> smallest_air_volume(Volume gas, double floor_percent, double baseline_percent) {
  if (const auto fits = check_floor(floor_percent, baseline_percent); !fits) return fits.error();
  return gas / (1 - floor_percent / baseline_percent);
}

Outcome<double> oxygen_at_steady_leak(Volume air_volume, double leak_m3_per_h,
                                      double air_changes_per_h, double baseline_percent) {
  if (const auto fits = check_room(air_volume, baseline_percent); !fits) return fits.error();
  if (const auto fits = within("leak_m3_per_h", leak_m3_per_h, 0, kAnyVolume); !fits) {
    return fits.error();
  }
  if (const auto fits = within("air_changes_per_h", air_changes_per_h, 1e-6, 1e6); !fits) {
    return fits.error();
  }
  const double moved_m3_per_h = air_changes_per_h * air_volume.si();
  return std::max(0.0, baseline_percent * (1 - leak_m3_per_h / moved_m3_per_h));
}

Outcome<double> air_changes_for(Volume air_volume, double leak_m3_per_h, double floor_percent,
                                double baseline_percent) {
  if (const auto fits = check_room(air_volume, baseline_percent); !fits) return fits.error();
  if (const auto fits = check_floor(floor_percent, baseline_percent); !fits) return fits.error();
  if (const auto fits = within("leak_m3_per_h", leak_m3_per_h, 0, kAnyVolume); !fits) {
    return fits.error();
  }
  return leak_m3_per_h / (air_volume.si() * (1 - floor_percent / baseline_percent));
}

}  // namespace benchwarden::calculations
