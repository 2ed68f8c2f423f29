#include "tallies/levels.h"

#include <algorithm>
#include <limits>

#include "base/decimal.h"
#include "tallies/content_age.h"

namespace benchwarden::tallies {
namespace {

constexpr std::int64_t kPercentThousandths = 100'000;  // 100 % in thousandths of a percent
constexpr std::int64_t kPermille = 1'000;

bool in_range(std::int64_t amount) { return amount >= -kAmountMax && amount <= kAmountMax; }

std::optional<std::int64_t> permille(std::int64_t amount, std::int64_t limit) {
  if (limit <= 0 || !in_range(amount)) return std::nullopt;
  return base::divide_round_half_away(amount * kPermille, limit);
}

Level level_of(const State& state, ContentAges& ages, const std::string& id, const Thing& thing,
               base::Instant until) {
  const Timeline& timeline = state.timeline(id);
  Level level;
  level.container = id;
  level.name = word(thing.attributes, "name");
  level.stream = stream_of_container(state, id).value_or(StreamFacts{});
  level.retired = thing.retired;
  level.sealed = timeline.sealed(until);
  level.amount = timeline.level_at(until);
  if (level.stream.counted_by == CountedBy::kVolume) {
    level.volume = quantities::Microlitres(level.amount);
  }
  level.mass = as_mass(level.stream, level.amount);
  level.working_limit = working_limit(thing.attributes, level.stream);
  level.fraction_permille = permille(level.amount, level.working_limit);
  level.oldest_content = ages.oldest(id, until);
  level.last_reading = timeline.last_reading(base::kEarliest, until);
  return level;
}

}  // namespace

std::int64_t working_limit(const entries::Fields& container, const StreamFacts& stream) {
  const auto capacity = measure(container, "capacity_l", "l");
  const auto percent = measure(container, "working_limit_percent", "percent");
  if (!capacity || !percent) return 0;
  std::int64_t most =
      std::clamp(quantities::microlitres(*capacity).count(), std::int64_t{0}, kAmountMax);
  if (stream.counted_by == CountedBy::kMass) {
    if (!stream.density) return 0;
    most = std::min(mass_of(quantities::Microlitres(most), *stream.density).count(), kAmountMax);
  }
  const std::int64_t share =
      std::clamp(percent->value.thousandths, std::int64_t{0}, kPercentThousandths);
  return most * share / kPercentThousandths;
}

std::optional<StreamFacts> stream_facts(const State& state, std::string_view stream) {
  return stream_facts(state.under_care(), stream);
}

std::optional<StreamFacts> stream_of_container(const State& state, std::string_view container) {
  const Thing* thing = state.thing("container", container);
  if (thing == nullptr) return std::nullopt;
  return stream_facts(state.under_care(), word(thing->attributes, "stream"));
}

std::optional<quantities::Milligrams> as_mass(const StreamFacts& stream, std::int64_t amount) {
  if (stream.counted_by == CountedBy::kMass) return quantities::Milligrams(amount);
  if (!stream.density || !in_range(amount)) return std::nullopt;
  return mass_of(quantities::Microlitres(amount), *stream.density);
}

std::vector<Level> levels(const State& state, base::Instant until) {
  std::vector<Level> all;
  ContentAges ages(state);
  for (const auto& [id, thing] : state.things("container")) {
    all.push_back(level_of(state, ages, id, thing, until));
  }
  return all;
}

std::int64_t arisen(const State& state, std::string_view stream, base::Instant from,
                    base::Instant until) {
  std::int64_t sum = 0;
  for (const auto& [id, thing] : state.things("container")) {
    if (word(thing.attributes, "stream") != stream) continue;
    sum += state.timeline(id).arisen(from, until);
  }
  return sum;
}

}  // namespace benchwarden::tallies
