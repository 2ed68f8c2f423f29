#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "almanac.h"
#include "findings/finding.h"
#include "inventory.h"

namespace benchwarden::demo {

/// The lines that demo/findings.toml expects of a demo that ends on the almanac's day, in the form
/// of `line_of`. `persons` fills names in braces.
struct Expected {
  std::vector<std::string> at_the_end;
  /// What was found once and is not any more: the rule and subject, a moment at which it stood
  /// (none: it was never found), and one at which it was gone.
  struct Passed {
    std::string story;
    std::string rule;
    std::string subject;
    std::optional<base::Instant> stood;
    base::Instant gone;
  };
  std::vector<Passed> passed;
  std::set<std::string> stories;  ///< the ids of all that are named
};
Expected read_expected(const std::string& path, const Almanac& almanac, const PersonIds& persons);

/// "over own.gas-loss cylinder/n2 since 2026-10-07T09:10:00Z, measured 0.8 kg, limit 0.7 kg"
std::string line_of(const findings::Finding& finding);
std::string subject_of(const findings::Finding& finding);

}  // namespace benchwarden::demo
