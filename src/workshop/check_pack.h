#pragma once

#include <vector>

#include "base/toml.h"
#include "forms/catalog.h"
#include "rules/rule.h"

namespace benchwarden::workshop {

/// What a pack names must be there: classes, fields and codes of the forms, units that a field is
/// kept in, and the rules of `built_in` that it takes out. A rule about what does not exist would
/// never find anything, and nobody would be told.
void check_pack(const rules::RulePack& pack, const forms::Catalog& catalog,
                const std::vector<rules::RulePack>& built_in, base::FileFaults& faults);

}  // namespace benchwarden::workshop
