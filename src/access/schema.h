#pragma once

#include <string_view>
#include <vector>

namespace benchwarden::access {

/// The steps that lead from an empty file to today's access.db. Append only: a step that was ever
/// released is never edited.
const std::vector<std::string_view>& schema_steps();

}  // namespace benchwarden::access
