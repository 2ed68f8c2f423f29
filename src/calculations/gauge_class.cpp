#include "calculations/gauge_class.h"

#include <algorithm>
#include <array>

namespace benchwarden::calculations {
namespace {

constexpr std::array kClasses{
    GaugeClass{"en-0.1", 0.1, 0.1},    GaugeClass{"en-0.25", 0.25, 0.25},
    GaugeClass{"en-0.6", 0.6, 0.6},    GaugeClass{"en-1", 1, 1},
    GaugeClass{"en-1.6", 1.6, 1.6},    GaugeClass{"en-2.5", 2.5, 2.5},
    GaugeClass{"en-4", 4, 4},          GaugeClass{"asme-4a", 0.1, 0.1},
    GaugeClass{"asme-3a", 0.25, 0.25}, GaugeClass{"asme-2a", 0.5, 0.5},
    GaugeClass{"asme-1a", 1, 1},       GaugeClass{"asme-a", 2, 1},
    GaugeClass{"asme-b", 3, 2},        GaugeClass{"asme-c", 4, 3},
    GaugeClass{"asme-d", 5, 5},
};

base::Status<Refusal> check_scale(const GaugeScale& scale) {
  if (scale.span() > 0) return base::Done{};
  return Refusal{RefusalCode::kNoSolution, "scale_high_bar"};
}

}  // namespace

const GaugeClass* find_gauge_class(std::string_view code) {
  const auto* found = std::find_if(kClasses.begin(), kClasses.end(),
                                   [&](const GaugeClass& one) { return one.code == code; });
  return found == kClasses.end() ? nullptr : found;
}

Outcome<double> error_limit(const GaugeClass& gauge_class, const GaugeScale& scale,
                            double reading) {
  if (const auto fits = check_scale(scale); !fits) return fits.error();
  if (const auto fits = within("reference_bar", reading, scale.low, scale.high); !fits) {
    return fits.error();
  }
  const double share = (reading - scale.low) / scale.span();
  const bool middle = share >= 0.25 && share <= 0.75;
  return (middle ? gauge_class.middle_percent : gauge_class.outer_percent) / 100 * scale.span();
}

Outcome<double> reference_ratio(const GaugeClass& gauge, const GaugeScale& gauge_scale,
                                const GaugeClass& reference, const GaugeScale& reference_scale) {
  if (const auto fits = check_scale(gauge_scale); !fits) return fits.error();
  if (const auto fits = check_scale(reference_scale); !fits) return fits.error();
  return gauge.middle_percent * gauge_scale.span() /
         (reference.middle_percent * reference_scale.span());
}

double working_share(Load load) { return load == Load::kSteady ? 0.75 : 0.65; }

}  // namespace benchwarden::calculations
