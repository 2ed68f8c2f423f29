#include "rules/rule_kind.h"

#include <algorithm>

#include "base/text.h"

namespace benchwarden::rules {
namespace {

const std::vector<RuleKind>& kinds() {
  static const std::vector<RuleKind> all = [] {
    std::vector<RuleKind> found;
    for (const auto& group :
         {storage_kinds(),     quantity_kinds(), month_kinds(),       containment_kinds(),
          bin_kinds(),         reading_kinds(),  mixing_kinds(),      tested_kinds(),
          collection_kinds(),  weighed_kinds(),  retention_kinds(),   advice_kinds(),
          recorded_kinds(),    interval_kinds(), expiry_kinds(),      service_kinds(),
          cylinder_kinds(),    gas_loss_kinds(), cabinet_kinds(),     room_kinds(),
          spill_kinds(),       gauge_kinds(),    gauge_drift_kinds(), open_kinds(),
          cross_check_kinds(), idle_kinds(),     handover_kinds(),    month_close_kinds(),
          backup_kinds()}) {
      found.insert(found.end(), group.begin(), group.end());
    }
    return found;
  }();
  return all;
}

}  // namespace

const RuleKind* find_kind(std::string_view name) {
  const auto found = std::find_if(kinds().begin(), kinds().end(),
                                  [&](const RuleKind& kind) { return kind.name == name; });
  return found == kinds().end() ? nullptr : &*found;
}

std::string list_kinds() {
  std::vector<std::string> names;
  for (const RuleKind& kind : kinds()) names.emplace_back(kind.name);
  return base::join(names, ", ");
}

}  // namespace benchwarden::rules
