#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/rule_kind.h"
#include "rules/scene.h"
#include "tallies/levels.h"

// What stands in containers, as the rules about waste ask for it.

namespace benchwarden::rules {

/// One container a rule applies to.
struct Holding {
  findings::Subject container;
  tallies::StreamFacts stream;
  const entries::Fields* attributes = nullptr;         ///< of the container
  const entries::Fields* stream_attributes = nullptr;  ///< of its stream
};

/// The containers the rule applies to. Retired ones too where the rule looks back.
enum class Retired { kLeftOut, kIncluded };
std::vector<Holding> holdings(const Rule& rule, const Scene& scene, Retired retired);

/// Since when the register says what it says of these attributes of the container: the latest of
/// them. The beginning of time for none.
base::Instant entered_since(const Scene& scene, const std::string& container,
                            std::initializer_list<std::string_view> attributes);
/// When the container was last recorded as empty, by now.
std::optional<base::Instant> last_emptied(const Scene& scene, const std::string& container);

/// A setting of kinds whose time runs from no earlier than the container fulfilled the rule's
/// conditions on this attribute: content that was moved with it to another area begins there.
SettingSpec starts_with();
base::Instant clock_from(const Rule& rule, const Scene& scene, const findings::Subject& container);

/// When the sample was taken that a record tells of: at the beginning of the day entered for it, so
/// that a drum handed over on that day was sampled before; of that very day, when it was recorded.
/// What tells no day of a sample was seen when it was recorded.
base::Instant sampled_at(const Scene& scene, const tallies::Record& record);
/// The latest moment at which it may have been taken: the end of that day, since a sample follows
/// the suspicion it is to settle.
base::Instant sampled_by(const Scene& scene, const tallies::Record& record);

/// A moment of the book: what comes before it in order of time and number.
struct Moment {
  base::Instant at = base::kEarliest;
  std::uint64_t seq = 0;
  [[nodiscard]] bool is_after(base::Instant when, std::uint64_t number) const {
    return when < at || (when == at && number < seq);
  }
};

/// Whether what stood together in a container has more halogens than the figure, not rebutted: by
/// the last test of it, whenever its result came, or else by the last of its stream that was
/// sampled before it was emptied.
bool is_halogenated(const Scene& scene, const Holding& holding, const tallies::Standing& standing,
                    const RuleFigure& most);

}  // namespace benchwarden::rules
