#include "calculations/reconcile.h"

#include <array>
#include <cmath>
#include <vector>

#include "calculations/statistics.h"

namespace benchwarden::calculations {

using quantities::Volume;

Outcome<UncertainVolume> volume_by_weighing(const Weighing& weighing) {
  constexpr double kKilogramsMax = 1e6;
  if (const auto fits = within("density_kg_m3", weighing.density.si(), 100, 3000); !fits) {
    return fits.error();
  }
  if (const auto fits = within("tare_kg", weighing.tare.si(), 0, kKilogramsMax); !fits) {
    return fits.error();
  }
  const auto fits = within("gross_kg", weighing.gross.si(), weighing.tare.si(), kKilogramsMax);
  if (!fits) return fits.error();
  const quantities::Mass net = weighing.gross - weighing.tare;
  const double by_density =
      (net / weighing.density).si() * (weighing.density_uncertainty / weighing.density);
  const double by_gross = (weighing.gross_uncertainty / weighing.density).si();
  const double by_tare = (weighing.tare_uncertainty / weighing.density).si();
  return UncertainVolume{net / weighing.density,
                         Volume(combined(std::array{by_density, by_gross, by_tare}))};
}

UncertainVolume logged_sum(std::span<const double> volumes_l, double each_uncertainty_l,
                           double common_relative_uncertainty) {
  const double total = sum(volumes_l);
  const double independent = each_uncertainty_l * std::sqrt(static_cast<double>(volumes_l.size()));
  const double common = std::abs(total) * common_relative_uncertainty;
  return {quantities::litres(total), quantities::litres(combined(std::array{independent, common}))};
}

Outcome<Reconciled> reconcile(const UncertainVolume& log, const UncertainVolume& reading,
                              Volume of_interest) {
  if (!(log.uncertainty.si() > 0)) return Refusal{RefusalCode::kNoSolution, "each_uncertainty_l"};
  if (!(reading.uncertainty.si() > 0)) {
    return Refusal{RefusalCode::kNoSolution, "reading_uncertainty_l"};
  }
  Reconciled result;
  result.difference = reading.volume - log.volume;
  const double combined_u = combined(std::array{log.uncertainty.si(), reading.uncertainty.si()});
  result.expanded_uncertainty = Volume(kCoverageFactor * combined_u);
  if (std::abs(result.difference.si()) > result.expanded_uncertainty.si()) {
    result.agreement = Agreement::kBeyondUncertainty;
  } else if (result.expanded_uncertainty <= of_interest) {
    result.agreement = Agreement::kWithinUncertainty;
  }
  const double share = std::pow(log.uncertainty.si() / combined_u, 2);
  result.best.volume = log.volume + result.difference * share;
  result.best.uncertainty = log.uncertainty * (reading.uncertainty.si() / combined_u);
  return result;
}

}  // namespace benchwarden::calculations
