#pragma once

#include <optional>

#include "base/json.h"
#include "base/result.h"
#include "workshop/fold.h"
#include "workshop/judgement.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// What the rules in force say: findings with measured value, limit and citation, the advice of
/// the packs, and which packs judged; now, or as seen from a viewpoint.
base::Result<base::Json> show_findings(const Ports& ports, const std::optional<Viewpoint>& view);

/// The findings about what one entry names, as they are now.
base::JsonArray findings_about(const Ports& ports, const base::Uuid& entry);

/// Every rule in force, with its figures, citation and confidence.
base::Result<base::Json> show_rules(const Ports& ports);

}  // namespace benchwarden::workshop
