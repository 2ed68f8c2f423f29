#pragma once

#include <optional>
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

/// The largest error allowed at a reading, in the unit of the scale. kOutOfRange (reference_bar)
/// outside the scale; kNoSolution (scale) when its ends are not in order.
Outcome<double> error_limit(const GaugeClass& gauge_class, const GaugeScale& scale, double reading);

/// The span of the gauge's limit over that of the reference it is checked against: the test
/// uncertainty ratio of ANSI/NCSL Z540.3, which asks for 4. Both classes at the middle.
Outcome<double> reference_ratio(const GaugeClass& gauge, const GaugeScale& gauge_scale,
                                const GaugeClass& reference, const GaugeScale& reference_scale);

/// How the pressure on a gauge behaves in use.
enum class Load { kSteady, kFluctuating };
/// The highest pressure to use a gauge at, as a share of its full scale: EN 837-2, 75 % for a
/// steady and 65 % for a fluctuating pressure, on a gauge without the triangle at full scale.
double working_share(Load load);

}  // namespace benchwarden::calculations
