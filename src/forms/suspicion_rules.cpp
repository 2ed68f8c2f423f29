#include "forms/suspicion_rules.h"

#include <algorithm>
#include <array>
#include <optional>

#include "forms/confirmation.h"
#include "forms/stream_facts.h"

namespace benchwarden::forms {
namespace {

using entries::Code;
using entries::Id;

constexpr std::string_view kNone = "none";
constexpr std::string_view kSolvent = "solvent";
constexpr std::string_view kHalogenated = "halogenated";
/// Solvents that hold halogens: List of Waste, Commission Decision 2000/532/EC, Annex.
constexpr std::array<std::string_view, 3> kHalogenatedCodes{"14 06 01", "14 06 02", "14 06 04"};
constexpr std::string_view kChlorinated = "chlorinated";

bool has_code(const Thing& thing, std::string_view attribute, std::string_view code) {
  const auto* value = entries::find_field_as<Code>(thing.attributes, attribute);
  return value != nullptr && value->slug == code;
}

/// By the register, or where that says nothing by the code of the waste.
bool is_halogenated(const Thing& stream) {
  if (entries::find_field(stream.attributes, "halogenated") != nullptr) {
    return has_code(stream, "halogenated", "yes");
  }
  const auto* code = entries::find_field_as<entries::Text>(stream.attributes, "low_code");
  return code != nullptr && std::find(kHalogenatedCodes.begin(), kHalogenatedCodes.end(),
                                      code->text) != kHalogenatedCodes.end();
}

/// Whether what is suspected is what the container's stream consists of by the register, or the
/// register does not tell.
bool is_for(const std::string& container, std::string_view suspected,
            const Surroundings& surroundings) {
  const auto stream = stream_of(container, surroundings);
  if (!stream) return true;
  if (suspected == kChlorinated) return is_halogenated(*stream);
  return suspected == kSolvent && has_code(*stream, "waste_type", "spent-solvent");
}

/// A code told of what goes into a container.
struct ToldOf {
  std::string field;
  std::string code;
  std::string container;
};

/// None where the form tells no such thing, one of the two could not be read, or neither is new.
std::optional<ToldOf> told_of(const EffectDefinition& effect, std::string_view role,
                              const ReadForm& form) {
  const std::string field = field_in(effect, role);
  const std::string into = field_in(effect, "container");
  if (!form.given.contains(field) && !form.given.contains(into)) return std::nullopt;
  const auto* code = entries::find_field_as<Code>(form.fields, field);
  const auto* container = entries::find_field_as<Id>(form.fields, into);
  if (code == nullptr || container == nullptr) return std::nullopt;
  return ToldOf{field, code->slug, container->slug};
}

void ask_of(const ToldOf& told, entries::Unusual unusual, const Definition& definition,
            const ReadContext& context, entries::Refusals& refusals) {
  ask(told.field,
      {unusual, label_of(*find_field(definition, told.field), told.code), "",
       name_of("container", told.container, context.surroundings)},
      context, refusals);
}

}  // namespace

void check_suspicion(const Definition& definition, const EffectDefinition& effect,
                     const ReadForm& form, const ReadContext& context,
                     entries::Refusals& refusals) {
  const auto told = told_of(effect, "suspected", form);
  if (!told || told->code == kNone) return;
  if (is_for(told->container, told->code, context.surroundings)) return;
  ask_of(*told, entries::Unusual::kSuspected, definition, context, refusals);
}

void check_halogenated(const Definition& definition, const EffectDefinition& effect,
                       const ReadForm& form, const ReadContext& context,
                       entries::Refusals& refusals) {
  const auto told = told_of(effect, "solvent", form);
  if (!told || told->code != kHalogenated) return;
  if (is_for(told->container, kChlorinated, context.surroundings)) return;
  ask_of(*told, entries::Unusual::kHalogenated, definition, context, refusals);
}

void check_passed_on(const EffectDefinition& effect, const ReadForm& form,
                     const ReadContext& context, entries::Refusals& refusals) {
  if (effect.effect != "moves") return;
  const std::string& from = effect.roles.at("from");
  const std::string& into = effect.roles.at("to");
  if (!form.given.contains(from) && !form.given.contains(into)) return;
  const auto* source = entries::find_field_as<Id>(form.fields, from);
  const auto* container = entries::find_field_as<Id>(form.fields, into);
  if (source == nullptr || container == nullptr) return;
  const Surroundings& world = context.surroundings;
  const auto there = world.suspected(container->slug);
  for (const Surroundings::Suspicion& one : world.suspected(source->slug)) {
    const bool known = std::find(there.begin(), there.end(), one) != there.end();
    if (known || is_for(container->slug, one.code, world)) continue;
    ask(into,
        {entries::Unusual::kSuspected, one.label, "", name_of("container", container->slug, world)},
        context, refusals);
  }
}

}  // namespace benchwarden::forms
