#include "calculations/gauge_class.h"

#include <algorithm>
#include <array>
#include <limits>
#include <vector>

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

constexpr double kLowestBar = -1;
constexpr double kHighestBar = 1600;  // of any scale that is taken

base::Status<Refusal> check_scale(const GaugeScale& scale) {
  if (scale.span() > 0) return base::Done{};
  return Refusal{RefusalCode::kNoSolution, "scale_high_bar"};
}

base::Status<Refusal> check_cover(const GaugeScale& gauge, const GaugeScale& reference) {
  if (reference.low > gauge.low) {
    return Refusal{RefusalCode::kContradicts, "reference_scale_low_bar", reference.low, kLowestBar,
                   gauge.low};
  }
  if (reference.high >= gauge.high) return base::Done{};
  return Refusal{RefusalCode::kContradicts, "reference_scale_high_bar", reference.high, gauge.high,
                 kHighestBar};
}

bool of_en_837(const GaugeClass& gauge_class) { return gauge_class.code.starts_with("en-"); }

}  // namespace

std::span<const GaugeClass> gauge_classes() { return kClasses; }

const GaugeClass* find_gauge_class(std::string_view code) {
  const auto* found = std::find_if(kClasses.begin(), kClasses.end(),
                                   [&](const GaugeClass& one) { return one.code == code; });
  return found == kClasses.end() ? nullptr : found;
}

unsigned usual_points(const GaugeClass& gauge_class) {
  if (!of_en_837(gauge_class)) return 0;
  return gauge_class.middle_percent < 1 ? 10 : 5;
}

bool limits_hysteresis(const GaugeClass& gauge_class) { return of_en_837(gauge_class); }

Outcome<double> error_limit(const GaugeClass& gauge_class, const GaugeScale& scale,
                            double reading) {
  if (const auto fits = check_scale(scale); !fits) return fits.error();
  constexpr double kBeyondEnd = 0.05;
  const double beyond = kBeyondEnd * scale.span();
  const auto fits = within("reference_bar", reading, scale.low - beyond, scale.high + beyond);
  if (!fits) return fits.error();
  const double share = (reading - scale.low) / scale.span();
  constexpr double kRounding = 1e-9;  // 3750 psi of 5000 psi lie on the border in bar as well
  const bool middle = share >= 0.25 - kRounding && share <= 0.75 + kRounding;
  return (middle ? gauge_class.middle_percent : gauge_class.outer_percent) / 100 * scale.span();
}

Outcome<double> reference_ratio(const GaugeClass& gauge, const GaugeScale& gauge_scale,
                                const GaugeClass& reference, const GaugeScale& reference_scale) {
  if (const auto fits = check_scale(gauge_scale); !fits) return fits.error();
  if (const auto fits = check_scale(reference_scale); !fits) return fits.error();
  if (const auto fits = check_cover(gauge_scale, reference_scale); !fits) return fits.error();
  // Limits change at borders of zones only: one point between each two stands for all.
  std::vector<double> borders;
  for (const GaugeScale* scale : {&gauge_scale, &reference_scale}) {
    for (const double share : {0.0, 0.25, 0.75, 1.0}) {
      const double border = scale->low + share * scale->span();
      borders.push_back(std::clamp(border, gauge_scale.low, gauge_scale.high));
    }
  }
  std::sort(borders.begin(), borders.end());
  double smallest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 1; i < borders.size(); ++i) {
    if (borders[i] <= borders[i - 1]) continue;
    const double point = (borders[i - 1] + borders[i]) / 2;
    const auto of_gauge = error_limit(gauge, gauge_scale, point);
    const auto of_reference = error_limit(reference, reference_scale, point);
    if (!of_gauge) return of_gauge.error();
    if (!of_reference) return of_reference.error();
    smallest = std::min(smallest, *of_gauge / *of_reference);
  }
  return smallest;
}

double working_share(Load load) { return load == Load::kSteady ? 0.75 : 0.65; }

}  // namespace benchwarden::calculations
