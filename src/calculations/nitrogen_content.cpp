#include "calculations/nitrogen_content.h"

#include <algorithm>
#include <cmath>

#include "calculations/nitrogen_state.h"

namespace benchwarden::calculations {

using quantities::AbsolutePressure;
using quantities::Mass;
using quantities::Temperature;
using quantities::Volume;

Outcome<Mass> nitrogen_mass(Volume water_capacity, AbsolutePressure pressure,
                            Temperature temperature) {
  const auto state = nitrogen_state(temperature, pressure);
  if (!state) return state.error();
  return state->density * water_capacity;
}

Outcome<Volume> nitrogen_volume(Mass mass, const GasBase& base) {
  const auto state = nitrogen_state(base.temperature, base.pressure);
  if (!state) return state.error();
  if (state->density.si() <= 0) return Refusal{RefusalCode::kNoSolution, "base_pressure_bar"};
  return mass / state->density;
}

Outcome<AbsolutePressure> nitrogen_pressure_in(Mass mass, Volume water_capacity,
                                               Temperature temperature) {
  const AbsolutePressure pressure = nitrogen_pressure(temperature, mass / water_capacity);
  const auto inside = nitrogen_state(temperature, pressure);
  if (!inside) return inside.error();
  return pressure;
}

Outcome<ChargesLeft> charges_left(Volume water_capacity, quantities::GaugePressure cylinder,
                                  const Charge& charge, Temperature temperature,
                                  AbsolutePressure atmosphere) {
  const auto density = [&](AbsolutePressure pressure) {
    return nitrogen_state(temperature, pressure);
  };
  const auto full = density(absolute(cylinder, atmosphere));
  const auto charged = density(absolute(charge.pressure, atmosphere));
  const auto open = density(atmosphere);
  if (!full) return full.error();
  if (!charged) return charged.error();
  if (!open) return open.error();
  ChargesLeft left;
  left.per_charge = (charged->density - open->density) * charge.gas_space;
  if (!(left.per_charge.si() > 0)) {
    return Refusal{RefusalCode::kOutOfRange, "charge_pressure_bar",
                   quantities::bar_gauge_of(charge.pressure), 0.1, 350};
  }
  left.usable = std::max(Mass(0), (full->density - charged->density) * water_capacity);
  left.count = std::floor(left.usable / left.per_charge);
  return left;
}

}  // namespace benchwarden::calculations
