#include "forms/suspicion_rules.h"

#include <algorithm>
#include <array>

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

}  // namespace

void check_suspicion(const Definition& definition, const EffectDefinition& effect,
                     const ReadForm& form, const ReadContext& context,
                     entries::Refusals& refusals) {
  const std::string field = field_in(effect, "suspected");
  const std::string into = field_in(effect, "container");
  if (field.empty() || into.empty()) return;
  if (!form.given.contains(field) && !form.given.contains(into)) return;
  const auto* suspected = entries::find_field_as<Code>(form.fields, field);
  const auto* container = entries::find_field_as<Id>(form.fields, into);
  if (suspected == nullptr || container == nullptr || suspected->slug == kNone) return;
  if (is_for(container->slug, suspected->slug, context.surroundings)) return;
  const std::string& label = label_of(*find_field(definition, field), suspected->slug);
  ask(field,
      {entries::Unusual::kSuspected, label, "",
       name_of("container", container->slug, context.surroundings)},
      context, refusals);
}

void check_halogenated(const Definition& definition, const EffectDefinition& effect,
                       const ReadForm& form, const ReadContext& context,
                       entries::Refusals& refusals) {
  const std::string field = field_in(effect, "solvent");
  const std::string into = field_in(effect, "container");
  if (field.empty() || into.empty()) return;
  if (!form.given.contains(field) && !form.given.contains(into)) return;
  const auto* solvent = entries::find_field_as<Code>(form.fields, field);
  const auto* container = entries::find_field_as<Id>(form.fields, into);
  if (solvent == nullptr || container == nullptr || solvent->slug != kHalogenated) return;
  if (is_for(container->slug, kChlorinated, context.surroundings)) return;
  ask(field,
      {entries::Unusual::kHalogenated, label_of(*find_field(definition, field), solvent->slug), "",
       name_of("container", container->slug, context.surroundings)},
      context, refusals);
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
