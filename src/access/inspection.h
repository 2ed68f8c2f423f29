#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/timestamp.h"

namespace benchwarden::access {

/// What of the book an inspector may see.
enum class InspectionScope { kEverything, kWaste, kCylindersAndTools };
std::string_view inspection_scope_name(InspectionScope scope);
std::optional<InspectionScope> inspection_scope_from_name(std::string_view name);

/// The access of an inspector, from one moment to another.
struct Inspection {
  std::string id;  ///< "i1"
  InspectionScope scope = InspectionScope::kEverything;
  base::Instant from;
  base::Instant until;
};

}  // namespace benchwarden::access
