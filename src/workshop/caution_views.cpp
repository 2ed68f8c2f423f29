#include "workshop/caution_views.h"

#include <cassert>

namespace benchwarden::workshop {

using base::JsonArray;
using base::JsonObject;

base::Json cautions_json(const Definitions& definitions, const std::vector<std::string>& ids) {
  JsonArray cautions;
  for (const std::string& id : ids) {
    const reports::Caution* caution = definitions.reports.cautions.find(id);
    assert(caution != nullptr);
    cautions.emplace_back(
        JsonObject{{"id", caution->id},
                   {"title", caution->title},
                   {"sentences", JsonArray(caution->sentences.begin(), caution->sentences.end())}});
  }
  return cautions;
}

}  // namespace benchwarden::workshop
