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

/// When something was taken first.
std::optional<base::Instant> first_taken(const Stages& stages) {
  std::optional<base::Instant> first;
  for (const auto& [at, takes] : stages) {
    if (takes.stage == CollectionStage::kTaken) first = std::min(first.value_or(at), at);
  }
  return first;
}

/// Container -> when it was taken.
std::map<std::string, base::Instant> containers_taken(const Stages& stages) {
  std::map<std::string, base::Instant> taken;
  for (const auto& [at, takes] : stages) {
    if (takes.stage != CollectionStage::kTaken) continue;
    for (const entries::TakenLoad& load : takes.loads) taken.emplace(load.container, at);
  }
  return taken;
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
  CollectionCheck(const Definition& definition, const EffectDefinition& effect, const Takes& takes,
                  const ReadContext& context, entries::Refusals& refusals)
      : definition_(definition),
        effect_(effect),
        takes_(takes),
        context_(context),
        refusals_(refusals),
        stages_(context.surroundings.stages(takes.collection, context.corrects)),
        taken_(containers_taken(stages_)) {}

  void run() {
    switch (takes_.stage) {
      case CollectionStage::kPlanned:
        return check_still_to_come("planned");
      case CollectionStage::kNotTaken:
        return check_still_to_come("not-taken");
      case CollectionStage::kTaken:
        return check_loads(containers_in(stages_, CollectionStage::kTaken),
                           RefusalCode::kTakenBefore);
      case CollectionStage::kDocumentReturned:
        if (was_taken()) check_document();
        return;
      case CollectionStage::kWeighed:
        if (was_taken()) check_weighed();
    }
  }

 private:
  /// What is dated before the load went is told late, and in order.
  void check_still_to_come(const std::string& stage) {
    const auto first = first_taken(stages_);
    if (!first || context_.occurred_at < *first) return;
    refuse(effect_.roles.at("stage"), RefusalCode::kTakenAlready, stage,
           "taken, document-returned, weighed");
  }

  bool was_taken() {
    if (!taken_.empty()) return true;
    refuse(effect_.roles.at("collection"), RefusalCode::kNothingTaken, takes_.collection, "");
    return false;
  }

  void check_loads(const std::set<std::string>& before, RefusalCode code) {
    for (std::size_t i = 0; i < takes_.loads.size(); ++i) {
      const std::string& container = takes_.loads[i].container;
      if (before.contains(container)) refuse(path(i), code, container, takes_.collection);
    }
  }

  void check_weighed() {
    std::vector<std::string> known;
    for (const auto& [container, at] : taken_) known.push_back(container);
    for (std::size_t i = 0; i < takes_.loads.size(); ++i) {
      const std::string& container = takes_.loads[i].container;
      const auto taken = taken_.find(container);
      if (taken == taken_.end()) {
        refuse(path(i), RefusalCode::kNotInCollection, container, base::join(known, ", "));
      } else if (context_.occurred_at < taken->second) {
        refuse(path(i), RefusalCode::kNotYetTaken, container,
               base::format_rfc3339_utc(taken->second));
      }
      check_mass(i);
    }
    check_loads(containers_in(stages_, CollectionStage::kWeighed), RefusalCode::kWeighedBefore);
  }

  /// A receiver weighs: a volume alone could not be held against the log.
  void check_mass(std::size_t row) {
    const entries::Amount& amount = takes_.loads[row].amount;
    const auto role = effect_.roles.find("loads.mass");
    if (amount.mass || !amount.volume || role == effect_.roles.end()) return;
    const FieldDefinition* list = find_field(definition_, effect_.roles.at("loads"));
    refuse(path(row, "loads.mass"), RefusalCode::kMissing, "",
           shown_accepted(*find_field(list->columns, role->second)));
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

  [[nodiscard]] std::string path(std::size_t row,
                                 const std::string& role = "loads.container") const {
    return effect_.roles.at("loads") + "/" + std::to_string(row) + "/" + effect_.roles.at(role);
  }

  void refuse(const std::string& path, RefusalCode code, std::string value, std::string accepted) {
    refusals_.push_back({"/fields/" + path, code, std::move(value), std::move(accepted)});
  }

  const Definition& definition_;
  const EffectDefinition& effect_;
  const Takes& takes_;
  const ReadContext& context_;
  entries::Refusals& refusals_;
  Stages stages_;
  std::map<std::string, base::Instant> taken_;
};

/// What is planned lies ahead. Of a correction only a day that it names is judged.
void check_planned_day(const ReadForm& form, const Original& original, const ReadContext& context,
                       entries::Refusals& refusals) {
  const std::string field = "planned_date";
  const auto* day = entries::find_field_as<base::CivilDate>(form.fields, field);
  if (day == nullptr || (original.fields != nullptr && !form.given.contains(field))) return;
  const base::CivilDate first = context.surroundings.day_of(context.occurred_at);
  if (*day >= first) return;
  refusals.push_back({"/fields/" + field, RefusalCode::kOutOfOrder, base::format_date(*day),
                      "\u2265 " + base::format_date(first)});
}

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
  check_planned_day(form, original, context, refusals);
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
  CollectionCheck(definition, effect, *takes, context, refusals).run();
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
