#pragma once

#include "calculations/refusal.h"
#include "quantities/measure.h"

namespace benchwarden::calculations {

/// The base a gas volume is given at, and the atmosphere a gauge reading stands on where nothing
/// better is known.
struct GasBase {
  quantities::Temperature temperature = quantities::celsius(15);
  quantities::AbsolutePressure pressure = quantities::bar_absolute(1.01325);
};

/// Nitrogen in a closed volume: density by nitrogen_state times volume. Range of nitrogen_state.
Outcome<quantities::Mass> nitrogen_mass(quantities::Volume water_capacity,
                                        quantities::AbsolutePressure pressure,
                                        quantities::Temperature temperature);
/// The volume the same nitrogen fills at the base. Range of nitrogen_state.
Outcome<quantities::Volume> nitrogen_volume(quantities::Mass mass, const GasBase& base);
/// What the gauge of a cylinder will show at another temperature when nothing leaves it.
/// kOutOfRange for what nitrogen_state would refuse.
Outcome<quantities::AbsolutePressure> nitrogen_pressure_in(quantities::Mass mass,
                                                           quantities::Volume water_capacity,
                                                           quantities::Temperature temperature);

/// One unit (a damper) charged from a cylinder: its gas space, and the pressure it gets.
struct Charge {
  quantities::Volume gas_space;
  quantities::GaugePressure pressure;
};
struct ChargesLeft {
  quantities::Mass usable;      ///< above the charging pressure; the rest cannot flow out
  quantities::Mass per_charge;  ///< beyond the air pressure the unit starts with
  double count = 0;             ///< whole charges; hoses and blow-off are not counted
};
/// Gas at one temperature throughout. The cylinder must stand above the charging pressure, else
/// none are left. kOutOfRange (charge_pressure_bar) for a charge without pressure.
Outcome<ChargesLeft> charges_left(quantities::Volume water_capacity,
                                  quantities::GaugePressure cylinder, const Charge& charge,
                                  quantities::Temperature temperature,
                                  quantities::AbsolutePressure atmosphere);

}  // namespace benchwarden::calculations
