#include "forms/container_rules.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "forms/confirmation.h"

namespace benchwarden::forms {
namespace {

using entries::Code;
using entries::Id;
using entries::RefusalCode;

/// One container named by an effect, and the field that names it.
struct Named {
  std::string role;
  std::string field;
  std::string container;
};

std::vector<Named> named_containers(const EffectDefinition& effect, const entries::Fields& fields) {
  std::vector<Named> named;
  for (const std::string role : {"container", "from", "to"}) {
    const std::string field = field_in(effect, role);
    const auto* id = entries::find_field_as<Id>(fields, field);
    if (id != nullptr) named.push_back({role, field, id->slug});
  }
  return named;
}

bool is_given(const EffectDefinition& effect, std::string_view role,
              const entries::Fields& fields) {
  return entries::find_field(fields, field_in(effect, role)) != nullptr;
}

std::string code_of(const std::optional<Thing>& thing, std::string_view attribute) {
  if (!thing) return "";
  const auto* code = entries::find_field_as<Code>(thing->attributes, attribute);
  return code == nullptr ? "" : code->slug;
}

/// The loads of a collection as one named container each, with what is given of it.
struct Load {
  Named named;
  bool by_volume = false;
  bool by_mass = false;
};

std::vector<Load> named_loads(const EffectDefinition& effect, const entries::Fields& fields) {
  std::vector<Load> loads;
  const auto column = [&](std::string_view role) { return field_in(effect, role); };
  const auto* list = entries::find_field_as<entries::List>(fields, column("loads"));
  if (list == nullptr) return loads;
  const std::string container = column("loads.container");
  for (std::size_t i = 0; i < list->rows.size(); ++i) {
    const entries::Record& row = list->rows[i];
    const auto* id = entries::find_scalar_as<Id>(row, container);
    if (id == nullptr) continue;
    const std::string path = column("loads") + "/" + std::to_string(i) + "/" + container;
    const auto given = [&](std::string_view role) {
      return entries::find_scalar_as<quantities::Quantity>(row, column(role)) != nullptr;
    };
    loads.push_back({{"container", path, id->slug}, given("loads.volume"), given("loads.mass")});
  }
  return loads;
}

class ContainerCheck {
 public:
  ContainerCheck(const ReadForm& form, const ReadContext& context, entries::Refusals& refusals)
      : form_(form), context_(context), refusals_(refusals) {}

  void run(const EffectDefinition& effect) {
    const std::vector<Named> named = named_containers(effect, form_.fields);
    for (const Named& one : named) {
      check_once(one);
      check_stream(one);
    }
    if (effect.effect == "moves") check_way(named);
    const bool by_volume = is_given(effect, "volume", form_.fields);
    const bool by_mass = is_given(effect, "mass", form_.fields);
    if (by_volume == by_mass) return;
    for (const Named& one : named) check_countable(one, by_volume ? "volume" : "mass");
  }

  void run_loads(const EffectDefinition& effect) {
    for (const Load& load : named_loads(effect, form_.fields)) {
      check_once(load.named);
      if (load.by_volume != load.by_mass) {
        check_countable(load.named, load.by_volume ? "volume" : "mass");
      }
    }
  }

 private:
  void check_once(const Named& named) {
    const auto [place, is_new] = fields_.emplace(named.container, named.field);
    if (is_new || place->second == named.field) return;
    refuse(named, RefusalCode::kNamedTwice, "");
  }

  /// What an entry names first is where its waste comes from; of a correction only what it names
  /// newly is judged.
  void check_stream(const Named& named) {
    if (!source_) {
      source_ = named;
      return;
    }
    const bool fresh = form_.given.contains(named.field) || form_.given.contains(source_->field);
    const std::string before = stream_of(source_->container);
    const std::string after = stream_of(named.container);
    const bool stays = before.empty() || after.empty() || before == after;
    if (stays || !fresh) return;
    const auto name = [&](std::string_view thing_class, const std::string& id) {
      return name_of(thing_class, id, context_.surroundings);
    };
    ask(named.field,
        {entries::Unusual::kOtherStream, name("stream", after), name("stream", before),
         name("container", named.container)},
        context_, refusals_);
  }

  /// "" where the register does not tell.
  [[nodiscard]] std::string stream_of(const std::string& container) const {
    const auto thing = context_.surroundings.thing("container", container);
    if (!thing) return "";
    const auto* stream = entries::find_field_as<Id>(thing->attributes, "stream");
    return stream == nullptr ? "" : stream->slug;
  }

  void check_way(const std::vector<Named>& named) {
    if (named.size() != 2) return;
    const auto from = context_.surroundings.thing("container", named[0].container);
    const auto to = context_.surroundings.thing("container", named[1].container);
    if (code_of(from, "counts_waste") == "yes" && code_of(to, "counts_waste") == "no") {
      refuse(named[1], RefusalCode::kCountedAlready, "");
    }
  }

  void check_countable(const Named& named, const std::string& given) {
    const auto facts = context_.surroundings.thing("stream", stream_of(named.container));
    const std::string counted_by = code_of(facts, "counted_by");
    if (counted_by.empty() || counted_by == given) return;
    if (entries::find_field(facts->attributes, "density_kg_m3") != nullptr) return;
    refuse(named, RefusalCode::kNotCountable, counted_by);
  }

  void refuse(const Named& named, RefusalCode code, std::string accepted) {
    refusals_.push_back({"/fields/" + named.field, code, named.container, std::move(accepted)});
  }

  const ReadForm& form_;
  const ReadContext& context_;
  entries::Refusals& refusals_;
  std::map<std::string, std::string> fields_;  ///< container -> the field that named it first
  std::optional<Named> source_;
};

}  // namespace

void check_containers(const Definition& definition, const ReadForm& form,
                      const ReadContext& context, entries::Refusals& refusals) {
  ContainerCheck check(form, context, refusals);
  for (const EffectDefinition& effect : definition.effects) {
    if (!holds(effect.when, form.fields)) continue;
    check.run(effect);
    if (effect.effect == "takes") check.run_loads(effect);
  }
}

}  // namespace benchwarden::forms
