#pragma once

#include <functional>
#include <string_view>

#include "access/inspection.h"

namespace benchwarden::http {

/// What of the book a route shows. To an inspector whose access is for a part of it only what lies
/// in that part is shown; without one said, a route is for access to everything.
enum class Shows {
  kWhole,    ///< of all kinds, in one answer
  kNothing,  ///< nothing of the book, or what everybody needs to read it
  kWaste,
  kCylindersAndTools,
  kKind,    ///< that of the `kind` and the `subject` in the query, or what the handler selects
  kClass,   ///< that of {class} in the path
  kReport,  ///< that of {name} in the path
};

/// Whether entries of that kind, things of that class, and that report lie in the scope.
bool kind_in_scope(access::InspectionScope scope, std::string_view kind);
bool class_in_scope(access::InspectionScope scope, std::string_view thing_class);
bool report_in_scope(access::InspectionScope scope, std::string_view report);
/// Of a thing as entries name it: "container/w1".
bool subject_in_scope(access::InspectionScope scope, std::string_view subject);

/// Says what stands under a name in the path or the query; empty: nothing does.
using Named = std::function<std::string_view(std::string_view)>;
bool route_in_scope(access::InspectionScope scope, Shows shows, const Named& named);

}  // namespace benchwarden::http
