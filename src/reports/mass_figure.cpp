#include "reports/mass_figure.h"

#include "reports/number_text.h"

namespace benchwarden::reports {
namespace {

// A volume times a density exceeds 64 bits.
__extension__ using Wide = __int128;

constexpr std::int64_t kVolumeMax = 1'000'000'000'000'000;
constexpr Wide kMicrolitresPerCubicMetre = 1'000'000'000;

}  // namespace

std::optional<std::int64_t> stated_mass(const tallies::StreamFacts& stream, std::int64_t amount) {
  if (stream.counted_by == tallies::CountedBy::kMass) return to_thousandth(amount);
  if (amount == 0) return 0;
  if (!stream.density) return std::nullopt;
  // Beyond a million cubic metres no figure is better than one that does not fit.
  if (amount < -kVolumeMax || amount > kVolumeMax) return std::nullopt;
  const Wide product = static_cast<Wide>(amount) * stream.density->count();
  const Wide half = product < 0 ? -kMicrolitresPerCubicMetre / 2 : kMicrolitresPerCubicMetre / 2;
  const Wide grams = (product + half) / kMicrolitresPerCubicMetre;
  return static_cast<std::int64_t>(grams * 1'000);
}

}  // namespace benchwarden::reports
