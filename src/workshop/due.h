#pragma once

#include <string>
#include <vector>

#include "base/civil_date.h"
#include "base/json.h"
#include "base/result.h"
#include "base/timestamp.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// One thing that is due on a day of the workshop's zone. Rule and subject together name it: there
/// is one item at most of the two, which keeps its place in a calendar when its day moves.
struct DueItem {
  base::CivilDate day;
  std::string rule;            ///< "planned-collection"
  std::string subject;         ///< "collection/c1"
  std::string sentence;        ///< whole in itself, its day in it; no person is named
  std::string citation;        ///< what asks for it
  base::Instant last_changed;  ///< when the newest entry it follows from was recorded
};

/// What is due, by day, then rule and subject; days that have passed, too. Now: the collections
/// that were planned and of which nothing was taken yet. kUnavailable: the disk fails.
base::Result<std::vector<DueItem>> due_items(const Ports& ports);

/// {"today", "items": [{"day", "rule", "subject", "sentence", "citation"}]}
base::Result<base::Json> show_due(const Ports& ports);

}  // namespace benchwarden::workshop
