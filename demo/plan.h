#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "almanac.h"
#include "base/toml.h"
#include "dice.h"

namespace benchwarden::demo {

/// What the entries of one occasion have in common: what was rolled or measured for them.
struct Occasion {
  std::map<std::string, base::Toml, std::less<>> wanted;  ///< not yet known, as the file has it
  std::map<std::string, std::string, std::less<>> known;
};

/// An entry that will be recorded. Its fields have questions in braces, answered when it is.
struct Planned {
  base::Instant occurred;
  base::Instant recorded;
  std::string who;
  std::string kind;
  base::Toml fields;
  std::vector<std::string> confirmed;
  std::string name;      ///< by which a later entry corrects it; "" mostly
  std::string corrects;  ///< the name of an earlier one
  std::string reason;
  std::shared_ptr<Occasion> occasion;
};

/// The work that is done again and again, by the tables [[routine]] of a file:
///
/// | member | holds |
/// |---|---|
/// | `on` | "open" (each open day), days of the week, "month 3" (the first open day from the 3rd of
/// each month on), "weeks 8" (from `from` on, the last open day's day of the week) | | `from`,
/// `until` | steps of the almanac; fourteen months back, today | | `except` | days on which it is
/// forgotten | | `between` | the earliest and latest time of day | | `chance` | percent of its days
/// on which it is done; 100 | | `each` | ids; it is done for each of them, a minute apart: {it} |
/// | `let` | values that its entries share: "60..310" is rolled, "{level w1}" is asked for at the
/// first of them | | `entry` | `kind`, `by` (one of them), `fields`, and `after`, minutes, or
/// `days` after the first |
std::vector<Planned> plan_routines(const base::Toml& file, const std::string& name,
                                   const Almanac& almanac, Dice& dice);

/// What happened once, by the tables [[story]]: `id`, `tells`, and `entry` with `at` (steps and
/// time), `by`, `kind`, `fields`, and where needed `recorded`, `confirmed`, `name`, `corrects`,
/// `reason`.
std::vector<Planned> plan_stories(const base::Toml& file, const std::string& name,
                                  const Almanac& almanac, Dice& dice);

}  // namespace benchwarden::demo
