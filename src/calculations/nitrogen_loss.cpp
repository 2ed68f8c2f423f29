#include "calculations/nitrogen_loss.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "calculations/nitrogen_content.h"
#include "calculations/nitrogen_state.h"
#include "calculations/statistics.h"

namespace benchwarden::calculations {
namespace {

using quantities::AbsolutePressure;
using quantities::Mass;
using quantities::Temperature;
using quantities::Volume;

/// How far the content moves when one input moves by its uncertainty: half the difference of both
/// sides. At the ends of the equation of state's range a side is pulled in, and what it moved less
/// is made up in proportion.
Outcome<double> moved_by(Volume volume, const CylinderReading& reading, double pressure_step,
                         double temperature_step) {
  constexpr double kPressureMax = 35e6;
  const auto pascals = [&](double side) {
    return std::clamp(reading.pressure.si() + side * pressure_step, 0.0, kPressureMax);
  };
  const auto kelvins = [&](double side) {
    return std::clamp(reading.temperature.si() + side * temperature_step, 253.15, 323.15);
  };
  const double wanted = 2 * (pressure_step + temperature_step);  // one of them is 0
  const double moved = pascals(1) - pascals(-1) + kelvins(1) - kelvins(-1);
  if (wanted <= 0 || moved <= 0) return 0.0;
  const auto above = nitrogen_mass(volume, AbsolutePressure(pascals(1)), Temperature(kelvins(1)));
  if (!above) return above.error();
  const auto below = nitrogen_mass(volume, AbsolutePressure(pascals(-1)), Temperature(kelvins(-1)));
  if (!below) return below.error();
  return std::abs(above->si() - below->si()) / 2 * (wanted / moved);
}

LossVerdict verdict_of(const NitrogenLoss& loss, Mass loss_of_interest) {
  if (loss.loss > loss.expanded_uncertainty) return LossVerdict::kLossBeyondUncertainty;
  const bool gas_appeared = loss.loss < Mass(0) - loss.expanded_uncertainty;
  if (gas_appeared || loss.expanded_uncertainty > loss_of_interest) {
    return LossVerdict::kCannotTell;
  }
  return LossVerdict::kNoEvidenceOfLoss;
}

}  // namespace

std::string_view verdict_code(LossVerdict verdict) {
  switch (verdict) {
    case LossVerdict::kLossBeyondUncertainty:
      return "loss-beyond-uncertainty";
    case LossVerdict::kNoEvidenceOfLoss:
      return "no-evidence-of-loss";
    case LossVerdict::kCannotTell:
      break;
  }
  return "cannot-tell";
}

AbsolutePressure gauge_reading_uncertainty(double class_percent, quantities::GaugePressure span,
                                           quantities::GaugePressure resolution) {
  const double by_class = rectangular(span.si() * class_percent / 100);
  const double by_reading = rectangular(resolution.si() / 2);
  return AbsolutePressure(combined(std::array{by_class, by_reading}));
}

Outcome<UncertainContent> uncertain_content(Volume water_capacity, const CylinderReading& reading) {
  const auto mass = nitrogen_mass(water_capacity, reading.pressure, reading.temperature);
  if (!mass) return mass.error();
  const auto by_pressure = moved_by(water_capacity, reading, reading.pressure_uncertainty.si(), 0);
  if (!by_pressure) return by_pressure.error();
  const auto by_temperature =
      moved_by(water_capacity, reading, 0, reading.temperature_uncertainty.si());
  if (!by_temperature) return by_temperature.error();
  return UncertainContent{*mass, Mass(combined(std::array{*by_pressure, *by_temperature}))};
}

Outcome<NitrogenLoss> nitrogen_loss(Volume water_capacity, double capacity_uncertainty,
                                    const CylinderReading& first, const CylinderReading& second,
                                    Mass logged_use, Mass loss_of_interest) {
  const auto before = uncertain_content(water_capacity, first);
  if (!before) return before.error();
  const auto after = uncertain_content(water_capacity, second);
  if (!after) return after.error();
  return nitrogen_loss(*before, *after, capacity_uncertainty, logged_use, loss_of_interest);
}

NitrogenLoss nitrogen_loss(const UncertainContent& first, const UncertainContent& second,
                           double capacity_uncertainty, Mass logged_use, Mass loss_of_interest) {
  const Mass difference = first.mass - second.mass;
  NitrogenLoss result{first.mass, second.mass, difference - logged_use, {}};
  const double by_capacity = difference.si() * capacity_uncertainty;
  result.expanded_uncertainty =
      Mass(kCoverageFactor *
           combined(std::array{first.uncertainty.si(), second.uncertainty.si(), by_capacity}));
  result.verdict = verdict_of(result, loss_of_interest);
  return result;
}

}  // namespace benchwarden::calculations
