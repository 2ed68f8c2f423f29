#pragma once

#include "calculations/refusal.h"
#include "quantities/measure.h"

namespace benchwarden::calculations {

/// Oxygen left in a closed room after a gas without oxygen has pushed air out of it, in percent by
/// volume: baseline * (room - gas) / room; 0 when the gas fills the room. The displacement form: a
/// well-mixed release ends a little higher, so this is the cautious side. It is an average of the
/// room; near the leak and near the floor (cold gas) there is less.
/// `air_volume` is the room less what stands in it, > 0; `gas` at room temperature, >= 0;
/// 0 < baseline_percent <= 100; else kOutOfRange. Source: University of Oxford,
/// safety policy S4/03, appendix 1.
Outcome<double> oxygen_after_release(quantities::Volume air_volume, quantities::Volume gas,
                                     double baseline_percent);
/// The smallest air volume in which the same release leaves `floor_percent` of oxygen.
/// 0 <= floor_percent < baseline_percent.
Outcome<quantities::Volume> smallest_air_volume(quantities::Volume gas, double floor_percent,
                                                double baseline_percent);

/// A gas that leaks steadily into a ventilated room, well mixed, after a long time: baseline *
/// (1 - leak / (changes * volume)); 0 when the leak is more than the ventilation moves. Common
/// practice, no source.
/// air_changes_per_h counts all that leaves the room, > 0; leak_m3_per_h at room conditions, >= 0.
Outcome<double> oxygen_at_steady_leak(quantities::Volume air_volume, double leak_m3_per_h,
                                      double air_changes_per_h, double baseline_percent);
/// The air changes an hour that hold `floor_percent` under that leak. Same range.
Outcome<double> air_changes_for(quantities::Volume air_volume, double leak_m3_per_h,
                                double floor_percent, double baseline_percent);

}  // namespace benchwarden::calculations
