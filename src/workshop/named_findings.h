#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>

#include "base/civil_date.h"
#include "tallies/state.h"

namespace benchwarden::workshop {

/// Number of an entry by the key of the finding it names.
using EntryByFinding = std::map<std::string, std::uint64_t, std::less<>>;

/// The last entries of a kind that name a finding ("finding-acknowledged", "action-closed"); none
/// whose day `until` has come.
EntryByFinding entries_naming_findings(const tallies::State& state, std::string_view kind,
                                       base::CivilDate today);

}  // namespace benchwarden::workshop
