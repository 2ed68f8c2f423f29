#include "forms/collection_rules.h"

#include <algorithm>
#include <map>
#include <set>

#include "base/text.h"
#include "forms/effect_reader.h"
#include "forms/shown.h"

namespace benchwarden::forms {
namespace {

using entries::CollectionStage;
using entries::RefusalCode;
using entries::Takes;
using Stages = std::vector<Surroundings::ToldStage>;

/// Nothing where the form does not tell (or could not be read to tell) which collection and stage.
std::optional<Takes> takes_of(const Definition& definition, const EffectDefinition& effect,
                              const entries::Fields& fields) {
  const bool told =
      entries::find_field_as<entries::Id>(fields, effect.roles.at("collection")) != nullptr &&
      entries::find_field_as<entries::Code>(fields, effect.roles.at("stage")) != nullptr;
  if (!told) return std::nullopt;
  return std::get<Takes>(effect_of(definition, effect, fields));
}

std::set<std::string> containers_in(const Stages& stages, CollectionStage stage) {
  std::set<std::string> containers;
  for (const auto& [at, takes] : stages) {
    if (takes.stage != stage) continue;
    for (const entries::TakenLoad& load : takes.loads) containers.insert(load.container);
  }
  return containers;
}

/// Document number -> when it was told first at this stage.
std::map<std::string, base::Instant> documents_in(const Stages& stages, CollectionStage stage) {
  std::map<std::string, base::Instant> documents;
  for (const auto& [at, takes] : stages) {
    if (takes.stage != stage) continue;
    const auto [place, is_new] = documents.emplace(takes.document_number, at);
    if (!is_new) place->second = std::min(place->second, at);
  }
  return documents;
}

/// What later stages rest on and `stages` do not say was taken: containers and document numbers.
std::vector<std::string> missing_below(const Stages& stages) {
  std::vector<std::string> missing;
  const auto containers = containers_in(stages, CollectionStage::kTaken);
  for (const std::string& weighed : containers_in(stages, CollectionStage::kWeighed)) {
    if (!containers.contains(weighed)) missing.push_back(weighed);
  }
  const auto documents = documents_in(stages, CollectionStage::kTaken);
  for (const auto& [returned, at] : documents_in(stages, CollectionStage::kDocumentReturned)) {
    if (!documents.contains(returned)) missing.push_back(returned);
  }
  return missing;
}

class CollectionCheck {
 public:
  CollectionCheck(const EffectDefinition& effect, const Takes& takes, const ReadContext& context,
                  entries::Refusals& refusals)
      : effect_(effect),
        takes_(takes),
        context_(context),
        refusals_(refusals),
        stages_(context.surroundings.stages(takes.collection, context.corrects)),
        taken_(containers_in(stages_, CollectionStage::kTaken)) {}

  void run() {
    if (takes_.stage == CollectionStage::kPlanned) return;
    if (takes_.stage == CollectionStage::kTaken)
      return check_loads(taken_, RefusalCode::kTakenBefore);
    if (taken_.empty()) {
      refuse(effect_.roles.at("collection"), RefusalCode::kNothingTaken, takes_.collection, "");
    } else if (takes_.stage == CollectionStage::kWeighed) {
      check_weighed();
    } else {
      check_document();
    }
  }

 private:
  void check_loads(const std::set<std::string>& before, RefusalCode code) {
    for (std::size_t i = 0; i < takes_.loads.size(); ++i) {
      const std::string& container = takes_.loads[i].container;
      if (before.contains(container)) refuse(path(i), code, container, takes_.collection);
    }
  }

  void check_weighed() {
    const std::string accepted = base::join({taken_.begin(), taken_.end()}, ", ");
    for (std::size_t i = 0; i < takes_.loads.size(); ++i) {
      const std::string& container = takes_.loads[i].container;
      if (taken_.contains(container)) continue;
      refuse(path(i), RefusalCode::kNotInCollection, container, accepted);
    }
    check_loads(containers_in(stages_, CollectionStage::kWeighed), RefusalCode::kWeighedBefore);
  }

  void check_document() {
    const std::string& number = takes_.document_number;
    if (number.empty()) return;  // could not be read
    const auto documents = documents_in(stages_, CollectionStage::kTaken);
    const auto taken = documents.find(number);
    const std::string& field = effect_.roles.at("document_number");
    if (taken == documents.end()) {
      std::vector<std::string> numbers;
      for (const auto& [known, at] : documents) numbers.push_back(known);
      refuse(field, RefusalCode::kUnknownDocument, shown_value(base::Json(number)),
             base::join(numbers, ", "));
    } else if (context_.occurred_at < taken->second) {
      refuse(field, RefusalCode::kNotYetTaken, number, base::format_rfc3339_utc(taken->second));
    }
  }

  [[nodiscard]] std::string path(std::size_t row) const {
    return effect_.roles.at("loads") + "/" + std::to_string(row) + "/" +
           effect_.roles.at("loads.container");
  }

  void refuse(const std::string& path, RefusalCode code, std::string value, std::string accepted) {
    refusals_.push_back({"/fields/" + path, code, std::move(value), std::move(accepted)});
  }

  const EffectDefinition& effect_;
  const Takes& takes_;
  const ReadContext& context_;
  entries::Refusals& refusals_;
  Stages stages_;
  std::set<std::string> taken_;
};

/// What would be left without a ground when the entry corrected says `after` of the collection it
/// spoke of, or nothing.
std::vector<std::string> left_hanging(const Takes& before, const std::optional<Takes>& after,
                                      const ReadContext& context) {
  if (before.stage != CollectionStage::kTaken) return {};
  Stages stages = context.surroundings.stages(before.collection, context.corrects);
  if (after && after->collection == before.collection) {
    stages.push_back({context.occurred_at, *after});
  }
  return missing_below(stages);
}

}  // namespace

void check_collection(const Definition& definition, const EffectDefinition& effect,
                      const ReadForm& form, const Original& original, const ReadContext& context,
                      entries::Refusals& refusals) {
  const auto takes = takes_of(definition, effect, form.fields);
  if (!takes) return;
  if (original.fields != nullptr) {
    const auto before = takes_of(definition, effect, *original.fields);
    if (before == takes || !form.unreadable.empty()) return;
    const auto hanging =
        before ? left_hanging(*before, takes, context) : std::vector<std::string>();
    if (!hanging.empty()) {
      refusals.push_back(
          {"/corrects", RefusalCode::kStagesRest, takes->collection, base::join(hanging, ", ")});
    }
  }
  CollectionCheck(effect, *takes, context, refusals).run();
}

void check_collection_strike_out(const Definition& definition, const EffectDefinition& effect,
                                 const entries::Fields& struck, const ReadContext& context,
                                 entries::Refusals& refusals) {
  const auto before = takes_of(definition, effect, struck);
  if (!before || left_hanging(*before, std::nullopt, context).empty()) return;
  const std::string shown = context.corrects ? base::format_uuid(*context.corrects) : "";
  refusals.push_back({"/corrects", RefusalCode::kReliedOn, shown, ""});
}

}  // namespace benchwarden::forms
