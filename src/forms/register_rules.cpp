#include "forms/register_rules.h"

#include <algorithm>
#include <cassert>

#include "base/text.h"
#include "forms/effect_roles.h"

namespace benchwarden::forms {
namespace {

using entries::Code;
using entries::RefusalCode;
using entries::RegisterAct;

constexpr std::string_view kSiteClass = "workshop";
constexpr std::string_view kSite = "site";
constexpr std::string_view kContainerClass = "container";

class RegisterRules {
 public:
  RegisterRules(const Definition& definition, const EffectDefinition& effect, const ReadForm& form,
                entries::Refusals& refusals)
      : definition_(definition),
        form_(form),
        refusals_(refusals),
        thing_(effect.roles.at("thing")),
        act_(effect.roles.at("act")),
        class_(find_field(definition, thing_)->class_field) {}

  /// Of an old register entry only attributes can be corrected: other entries name the thing. That
  /// fixed ones stay holds for every kind (check_fixed).
  void check_correction(const entries::Fields& original) {
    for (const FieldDefinition& field : definition_.fields) {
      if (!is_attribute(field)) refuse_if_altered(field, original);
    }
  }

  void check_new(const Surroundings& surroundings) {
    const auto* id = entries::find_field_as<entries::Id>(form_.fields, thing_);
    const auto* thing_class = entries::find_field_as<Code>(form_.fields, class_);
    const auto* act_code = entries::find_field_as<Code>(form_.fields, act_);
    if (id == nullptr || thing_class == nullptr || act_code == nullptr) return;
    const auto act = register_act(act_code->slug);
    assert(act.has_value());  // the catalog checked the options against the role
    if (thing_class->slug == kSiteClass) check_site(*id, *act);
    const auto thing = surroundings.thing(thing_class->slug, id->slug);
    if (*act == RegisterAct::kAdded) {
      if (thing) refuse(thing_, RefusalCode::kThingExists, id->slug, thing_class->slug);
      return;
    }
    if (!thing) {
      refuse(thing_, RefusalCode::kUnknownThing, id->slug, thing_class->slug);
    } else if (thing->retired) {
      refuse(thing_, RefusalCode::kRetiredThing, id->slug, thing_class->slug);
    } else if (*act == RegisterAct::kChanged) {
      check_change(thing->attributes);
    } else {
      check_retirement(id->slug, surroundings.ties(thing_class->slug, id->slug));
    }
  }

 private:
  /// A book is about one site, from its beginning to its end.
  void check_site(const entries::Id& id, RegisterAct act) {
    if (id.slug != kSite) refuse(thing_, RefusalCode::kBadId, id.slug, std::string(kSite));
    if (act == RegisterAct::kRetired) {
      refuse(act_, RefusalCode::kUnknownCode, "retired", "added, changed");
    }
  }

  void check_retirement(const std::string& id, const Surroundings::Ties& ties) {
    if (!ties.containers.empty()) {
      refuse(thing_, RefusalCode::kStillInUse, id, base::join(ties.containers, ", "));
    }
    if (!ties.content.empty()) refuse(thing_, RefusalCode::kNotEmptied, id, ties.content);
  }

  void check_change(const entries::Fields& current) {
    bool changes = false;
    for (const FieldDefinition& field : definition_.fields) {
      if (!is_attribute(field)) continue;
      if (field.fixed) refuse_if_altered(field, current);
      changes = changes || form_.unreadable.contains(field.name) || is_altered(field, current);
    }
    if (!changes) {
      refusals_.push_back({"/fields", RefusalCode::kNothingChanged, "", ""});
    }
  }

  [[nodiscard]] bool is_attribute(const FieldDefinition& field) const {
    return field.name != thing_ && field.name != act_ && field.name != class_;
  }

  [[nodiscard]] bool is_altered(const FieldDefinition& field, const entries::Fields& before) const {
    const entries::FieldValue* now = entries::find_field(form_.fields, field.name);
    const entries::FieldValue* then = entries::find_field(before, field.name);
    if (now == nullptr) return false;
    return then == nullptr || *now != *then;
  }

  void refuse_if_altered(const FieldDefinition& field, const entries::Fields& before) {
    if (is_altered(field, before)) refuse(field.name, RefusalCode::kFixedAttribute, "", "");
  }

  void refuse(const std::string& field, RefusalCode code, std::string value, std::string accepted) {
    refusals_.push_back({"/fields/" + field, code, std::move(value), std::move(accepted)});
  }

  const Definition& definition_;
  const ReadForm& form_;
  entries::Refusals& refusals_;
  const std::string& thing_;
  const std::string& act_;
  const std::string& class_;
};

}  // namespace

void check_register(const Definition& definition, const EffectDefinition& effect,
                    const ReadForm& form, const Original& original,
                    const Surroundings& surroundings, entries::Refusals& refusals) {
  RegisterRules rules(definition, effect, form, refusals);
  if (original.fields != nullptr) {
    rules.check_correction(*original.fields);
  } else {
    rules.check_new(surroundings);
  }
}

void check_register_strike_out(const Definition& definition, const EffectDefinition& effect,
                               const entries::Fields& struck, const Surroundings& surroundings,
                               entries::Refusals& refusals) {
  const std::string& thing_field = effect.roles.at("thing");
  const std::string& class_field = find_field(definition, thing_field)->class_field;
  const auto* thing_class = entries::find_field_as<Code>(struck, class_field);
  const auto* act = entries::find_field_as<Code>(struck, effect.roles.at("act"));
  const auto* id = entries::find_field_as<entries::Id>(struck, thing_field);
  if (thing_class == nullptr || act == nullptr || id == nullptr) return;
  if (thing_class->slug != kContainerClass) return;
  if (register_act(act->slug) != RegisterAct::kRetired) return;
  const auto container = surroundings.thing(kContainerClass, id->slug);
  if (!container) return;
  const auto* stream = entries::find_field_as<entries::Id>(container->attributes, "stream");
  if (stream == nullptr) return;
  const auto facts = surroundings.thing("stream", stream->slug);
  if (!facts || !facts->retired) return;
  refusals.push_back({"/corrects", RefusalCode::kRetiredThing, stream->slug, "stream"});
}

}  // namespace benchwarden::forms
