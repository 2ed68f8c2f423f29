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

/// The findings as they are now, to be asked about some entries: the rules judge once for all of
/// them. It holds a view of the state, so hold it briefly.
class FindingsNow {
 public:
  explicit FindingsNow(const Ports& ports);
  /// Those about what the entry names.
  [[nodiscard]] base::JsonArray about(const base::Uuid& entry) const;

 private:
  const Ports& ports_;
  LiveState::View state_;
  base::Instant now_;
  std::vector<findings::Finding> said_;
};

/// Those of a judgement of the scene about one subject.
base::JsonArray findings_about(const Definitions& definitions, const rules::Scene& scene,
                               const findings::Judgement& said, const findings::Subject& subject);

/// Every rule in force, with its figures, citation and confidence.
base::Result<base::Json> show_rules(const Ports& ports);

}  // namespace benchwarden::workshop
