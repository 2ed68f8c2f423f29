#include "forms/confirmation.h"

#include <algorithm>
#include <utility>

namespace benchwarden::forms {

void ask(const std::string& path, Question question, const ReadContext& context,
         entries::Refusals& refusals) {
  const std::string pointer = "/fields/" + path;
  const bool asked = std::any_of(refusals.begin(), refusals.end(),
                                 [&](const auto& one) { return one.pointer == pointer; });
  if (asked || context.confirmed.contains(path)) return;
  refusals.push_back({pointer, entries::RefusalCode::kNeedsConfirmation, std::move(question.value),
                      std::move(question.accepted), question.unusual, std::move(question.thing)});
}

std::string name_of(std::string_view thing_class, const std::string& id,
                    const Surroundings& surroundings) {
  const auto thing = surroundings.thing(thing_class, id);
  const auto* name =
      thing ? entries::find_field_as<entries::Text>(thing->attributes, "name") : nullptr;
  return name == nullptr ? id : name->text;
}

}  // namespace benchwarden::forms
