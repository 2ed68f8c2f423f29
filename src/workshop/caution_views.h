#pragma once

#include <string>
#include <vector>

#include "base/json.h"
#include "workshop/definitions.h"

namespace benchwarden::workshop {

/// The cautions of these ids: [{"id", "title", "sentences"}]. load_definitions has seen to it that
/// each exists.
base::Json cautions_json(const Definitions& definitions, const std::vector<std::string>& ids);

}  // namespace benchwarden::workshop
