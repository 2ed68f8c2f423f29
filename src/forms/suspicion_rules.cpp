#include "forms/suspicion_rules.h"

#include "forms/confirmation.h"
#include "forms/stream_facts.h"

namespace benchwarden::forms {
namespace {

using entries::Code;
using entries::Id;

constexpr std::string_view kNone = "none";
constexpr std::string_view kSolvent = "solvent";
constexpr std::string_view kChlorinated = "chlorinated";

bool has_code(const Thing& thing, std::string_view attribute, std::string_view code) {
  const auto* value = entries::find_field_as<Code>(thing.attributes, attribute);
  return value != nullptr && value->slug == code;
}

/// Whether what is suspected is what the container's stream consists of by the register, or the
/// register does not tell.
bool is_for(const std::string& container, std::string_view suspected,
            const Surroundings& surroundings) {
  const auto stream = stream_of(container, surroundings);
  if (!stream) return true;
  if (suspected == kChlorinated) return has_code(*stream, "halogenated", "yes");
  return suspected == kSolvent && has_code(*stream, "waste_type", "spent-solvent");
}

const std::string* field_in(const EffectDefinition& effect, std::string_view role) {
  const auto mapped = effect.roles.find(role);
  return mapped == effect.roles.end() ? nullptr : &mapped->second;
}

}  // namespace

void check_suspicion(const Definition& definition, const EffectDefinition& effect,
                     const ReadForm& form, const ReadContext& context,
                     entries::Refusals& refusals) {
  const std::string* field = field_in(effect, "suspected");
  const std::string* into = field_in(effect, "container");
  if (field == nullptr || into == nullptr) return;
  if (!form.given.contains(*field) && !form.given.contains(*into)) return;
  const auto* suspected = entries::find_field_as<Code>(form.fields, *field);
  const auto* container = entries::find_field_as<Id>(form.fields, *into);
  if (suspected == nullptr || container == nullptr || suspected->slug == kNone) return;
  if (is_for(container->slug, suspected->slug, context.surroundings)) return;
  const std::string& label = label_of(*find_field(definition, *field), suspected->slug);
  ask(*field,
      {entries::Unusual::kSuspected, label, "",
       name_of("container", container->slug, context.surroundings)},
      context, refusals);
}

}  // namespace benchwarden::forms
