// Compiled by ctest three times: as it stands, where it must pass, and with each of the mistakes
// below, where the compiler must name the mistake.
#include "calculations/nitrogen_state.h"

namespace benchwarden::calculations {

constexpr quantities::AbsolutePressure kTwice =
    quantities::bar_absolute(1) + quantities::bar_absolute(1);

Outcome<NitrogenState> full_cylinder() {
  return nitrogen_state(quantities::celsius(20), absolute(quantities::bar_gauge(200), kTwice));
}

#ifdef PRESSURE_PLUS_VOLUME
constexpr auto kMixed = quantities::bar_absolute(1) + quantities::litres(1);
#endif

#ifdef GAUGE_FOR_ABSOLUTE
Outcome<NitrogenState> forgotten_atmosphere() {
  return nitrogen_state(quantities::celsius(20), quantities::bar_gauge(200));
}
#endif

}  // namespace benchwarden::calculations
