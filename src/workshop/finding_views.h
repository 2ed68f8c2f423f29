#pragma once

#include <optional>
#include <vector>

#include "base/json.h"
#include "base/result.h"
#include "workshop/fold.h"
#include "workshop/judgement.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// What the rules in force say: findings with measured value, limit and citation, the advice of
/// the packs, and which packs judged; now, or as seen from a viewpoint.
base::Result<base::Json> show_findings(const Ports& ports, const std::optional<Viewpoint>& view);

/// Those of now about what an entry names. kNotFound when the book has no such entry.
base::Result<base::Json> show_findings_about(const Ports& ports, const base::Uuid& entry);

/// Those of a judgement of the scene about one subject.
base::JsonArray findings_about(const Definitions& definitions, const rules::Scene& scene,
                               const findings::Judgement& said, const findings::Subject& subject);

/// Every rule in force, with its figures, citation and confidence.
base::Result<base::Json> show_rules(const Ports& ports);

}  // namespace benchwarden::workshop
