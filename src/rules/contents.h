#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

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

/// The last test of the oil in the container since it was last empty, or else of its stream, that
/// tells this field.
const tallies::Record* last_test(const Scene& scene, const Holding& holding,
                                 std::string_view field);
/// Whether that test shows more halogens than the figure, not rebutted.
bool is_halogenated(const Scene& scene, const Holding& holding, const RuleFigure& most);

}  // namespace benchwarden::rules
