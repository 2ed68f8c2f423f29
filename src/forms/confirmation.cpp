#include "forms/confirmation.h"

#include <algorithm>
#include <utility>

namespace benchwarden::forms {

void ask(const std::string& path, Question question, const ReadContext& context,
         entries::Refusals& refusals) {
  if (context.confirmed.contains(path)) return;
  const entries::Refusal asked{"/fields/" + path,         entries::RefusalCode::kNeedsConfirmation,
                               std::move(question.value), std::move(question.accepted),
                               question.unusual,          std::move(question.thing)};
  if (std::find(refusals.begin(), refusals.end(), asked) == refusals.end()) {
    refusals.push_back(asked);
  }
}

std::string name_of(std::string_view thing_class, const std::string& id,
                    const Surroundings& surroundings) {
  const auto thing = surroundings.thing(thing_class, id);
  const auto* name =
      thing ? entries::find_field_as<entries::Text>(thing->attributes, "name") : nullptr;
  return name == nullptr ? id : name->text;
}

}  // namespace benchwarden::forms
