#pragma once

#include <utility>
#include <vector>

#include "rules/scene.h"

// The nitrogen that a room would take in when its cylinders empty into it, in m³ at 15 °C and
// 1.01325 bar. A cylinder lets out what its label says, else what it holds at its working pressure;
// one of which neither is known is left out.

namespace benchwarden::rules {

enum class Release { kAll, kLargest };

/// As the register stands, and the cylinders by now.
double room_gas(const Scene& scene, const findings::Subject& room, Release release);

/// The same over time: as the register and the changes of the cylinders had it at each moment.
class RoomGasCourse {
 public:
  RoomGasCourse(const Scene& scene, const findings::Subject& room, Release release);

  [[nodiscard]] double at(base::Instant moment) const;
  /// When it became another, up to now.
  [[nodiscard]] std::vector<base::Instant> turns() const;

 private:
  /// From the moment on, what a cylinder adds: ascending, each other than the one before.
  using Steps = std::vector<std::pair<base::Instant, double>>;

  static Steps steps_of(const Scene& scene, const findings::Subject& cylinder,
                        const std::string& room);

  Release release_;
  std::vector<Steps> cylinders_;
};

}  // namespace benchwarden::rules
