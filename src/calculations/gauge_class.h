#pragma once

#include <span>
#include <string_view>

#include "calculations/refusal.h"

namespace benchwarden::calculations {

/// The scale of a gauge, in one unit of pressure throughout: low end and high end.
struct GaugeScale {
  double low = 0;
  double high = 0;
  [[nodiscard]] double span() const { return high - low; }
};

/// The error a gauge may show, by its class: for EN 837-1 (1996), table 11, one share of the span;
/// for the zoned grades of ASME B40.100 one for the lower quarter, the middle half and the upper
/// quarter each. The borders of the middle half belong to it.
struct GaugeClass {
  std::string_view code;
  double outer_percent = 0;   ///< of the span, in both outer quarters
  double middle_percent = 0;  ///< of the span, in the middle half
};
/// EN 837-1: "en-0.1", "en-0.25", "en-0.6", "en-1", "en-1.6", "en-2.5", "en-4". ASME B40.100:
/// "asme-4a" 0.1, "asme-3a" 0.25, "asme-2a" 0.5, "asme-1a" 1, "asme-a" 2-1-2, "asme-b" 3-2-3,
/// "asme-c" 4-3-4, "asme-d" 5-5-5 (C and D from memory). nullptr for another code.
const GaugeClass* find_gauge_class(std::string_view code);
std::span<const GaugeClass> gauge_classes();  ///< all of them, in that order

/// How many points a gauge of the class is usually compared at: 5 for classes 1 and coarser, 10 for
/// finer ones (a maker's test instructions that cite EN 837); 0 for ASME B40.100, no source.
unsigned usual_points(const GaugeClass& gauge_class);
/// Whether the difference between rising and falling is held against the class's limit: for
/// EN 837-1 (from memory), not for ASME B40.100.
bool limits_hysteresis(const GaugeClass& gauge_class);

/// The largest error allowed at a reading, in the unit of the scale. A reading beyond an end of the
/// scale by up to 5 % of the span has the limit of that end, since a gauge at its end stop is
/// compared with a reference a little beyond. kOutOfRange (reference_bar) further out; kNoSolution
/// (scale) when its ends are not in order.
Outcome<double> error_limit(const GaugeClass& gauge_class, const GaugeScale& scale, double reading);

/// The gauge's limit over that of the reference it is checked against: the test uncertainty ratio
/// of ANSI/NCSL Z540.3, which asks for 4. The smallest over the gauge's scale, where either has
/// zones. kContradicts (reference_scale_high_bar, reference_scale_low_bar) when the reference does
/// not cover the gauge's scale.
Outcome<double> reference_ratio(const GaugeClass& gauge, const GaugeScale& gauge_scale,
                                const GaugeClass& reference, const GaugeScale& reference_scale);

/// How the pressure on a gauge behaves in use.
enum class Load { kSteady, kFluctuating };
/// The highest pressure to use a gauge at, as a share of its full scale: EN 837-2, 75 % for a
/// steady and 65 % for a fluctuating pressure, on a gauge without the triangle at full scale.
double working_share(Load load);

}  // namespace benchwarden::calculations
