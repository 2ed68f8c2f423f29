#include "workshop/collections.h"

#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "rules/collected.h"
#include "tallies/levels.h"
#include "workshop/chain.h"
#include "workshop/finding_views.h"
#include "workshop/judgement.h"

namespace benchwarden::workshop {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;
using entries::CollectionStage;
using tallies::CollectionTold;

std::string_view stage_word(CollectionStage stage) {
  switch (stage) {
    case CollectionStage::kPlanned:
      return "planned";
    case CollectionStage::kTaken:
      return "taken";
    case CollectionStage::kDocumentReturned:
      return "document-returned";
    case CollectionStage::kNotTaken:
      return "not-taken";
    case CollectionStage::kWeighed:
      break;
  }
  return "weighed";
}

Json kilograms(const std::optional<std::int64_t>& milligrams) {
  if (!milligrams) return nullptr;
  return quantities::in_kilograms(quantities::Milligrams(*milligrams));
}

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

/// One collection, told stage by stage.
class Collection {
 public:
  Collection(const Definitions& definitions, const rules::Scene& scene,
             const findings::Judgement& said, const std::string& id,
             const tallies::CollectionStages& stages)
      : definitions_(definitions), scene_(scene), said_(said), id_(id), stages_(stages) {
    if (const CollectionTold* plan = tallies::last_plan(stages)) {
      for (const auto& load : plan->takes.loads) planned_.emplace(load.container, &load);
    }
    for (const CollectionTold& told : stages) {
      for (const entries::TakenLoad& load : told.takes.loads) {
        if (told.takes.stage == CollectionStage::kTaken)
          taken_.insert_or_assign(load.container, &told);
        if (told.takes.stage == CollectionStage::kWeighed)
          weighed_.insert_or_assign(load.container, &load);
      }
    }
  }

  /// The day it was taken first, else the one it is planned for, else that of the first entry.
  [[nodiscard]] base::CivilDate day(const std::optional<base::CivilDate>& planned_for) const {
    const auto taken = std::find_if(stages_.begin(), stages_.end(), [](const auto& told) {
      return told.takes.stage == CollectionStage::kTaken;
    });
    if (taken != stages_.end()) return scene_.day_of(taken->at);
    return planned_for.value_or(scene_.day_of(stages_.front().at));
  }

  [[nodiscard]] JsonObject json(const std::optional<base::CivilDate>& planned_for) const {
    JsonArray entries;
    for (const CollectionTold& told : stages_) entries.emplace_back(told.seq);
    return {{"collection", id_},
            {"stage", stage_word(stage())},
            {"day", base::format_date(day(planned_for))},
            {"planned_for", planned_for ? Json(base::format_date(*planned_for)) : Json(nullptr)},
            {"carrier", carrier()},
            {"documents", documents()},
            {"loads", taken_.empty() ? planned_loads() : taken_loads()},
            {"left_behind", left_behind()},
            {"entries", std::move(entries)},
            {"findings", findings_about(definitions_, scene_, said_, {"collection", id_})}};
  }

 private:
  /// The last one told. What went is not planned again, nor refused as a whole.
  [[nodiscard]] CollectionStage stage() const {
    const bool taken = tallies::was_taken(stages_);
    const auto last = std::find_if(stages_.rbegin(), stages_.rend(), [&](const auto& told) {
      return !taken || (told.takes.stage != CollectionStage::kPlanned &&
                        told.takes.stage != CollectionStage::kNotTaken);
    });
    return last->takes.stage;
  }

  [[nodiscard]] std::string name_of(const std::string& thing_class, const std::string& id) const {
    const auto name = tallies::word(scene_.attributes({thing_class, id}), "name");
    return name.empty() ? id : std::string(name);
  }

  /// The last one that was named.
  [[nodiscard]] Json carrier() const {
    for (auto told = stages_.rbegin(); told != stages_.rend(); ++told) {
      const std::string& id = told->takes.carrier;
      if (!id.empty()) return JsonObject{{"id", id}, {"name", name_of("carrier", id)}};
    }
    return nullptr;
  }

  [[nodiscard]] Json returned_at(const std::string& number) const {
    for (const CollectionTold& told : stages_) {
      const bool came = told.takes.stage == CollectionStage::kDocumentReturned &&
                        told.takes.document_number == number;
      if (came) return base::format_rfc3339(scene_.zone().local(told.at));
    }
    return nullptr;
  }

  [[nodiscard]] JsonArray documents() const {
    JsonArray all;
    for (const CollectionTold& told : stages_) {
      if (told.takes.stage != CollectionStage::kTaken) continue;
      const std::string& number = told.takes.document_number;
      all.push_back(JsonObject{{"number", text_or_null(number)},
                               {"taken_at", base::format_rfc3339(scene_.zone().local(told.at))},
                               {"returned_at", returned_at(number)}});
    }
    return all;
  }

  [[nodiscard]] Json load_json(const std::string& container, const entries::Amount& stated,
                               const std::optional<std::int64_t>& logged,
                               const std::optional<std::int64_t>& weighed) const {
    const bool both = logged && weighed;
    return JsonObject{
        {"container", container},
        {"name", name_of("container", container)},
        {"volume_ml",
         stated.volume ? Json(quantities::in_millilitres(*stated.volume)) : Json(nullptr)},
        {"mass_kg", stated.mass ? Json(quantities::in_kilograms(*stated.mass)) : Json(nullptr)},
        {"logged_kg", kilograms(logged)},
        {"weighed_kg", kilograms(weighed)},
        {"difference_kg", both ? kilograms(*weighed - *logged) : Json(nullptr)}};
  }

  [[nodiscard]] JsonArray planned_loads() const {
    JsonArray all;
    for (const auto& [container, load] : planned_) {
      all.push_back(load_json(container, load->amount, std::nullopt, std::nullopt));
    }
    return all;
  }

  [[nodiscard]] JsonArray taken_loads() const {
    JsonArray all;
    for (const auto& [container, told] : taken_) {
      const auto& loads = told->takes.loads;
      const auto load =
          std::find_if(loads.begin(), loads.end(),
                       [&, &id = container](const auto& one) { return one.container == id; });
      std::optional<std::int64_t> weighed;
      const auto found = weighed_.find(container);
      if (found != weighed_.end() && found->second->amount.mass) {
        weighed = found->second->amount.mass->count();
      }
      all.push_back(load_json(container, load->amount,
                              rules::mass_taken(scene_.state(), container, *told), weighed));
    }
    return all;
  }

  /// What was planned and did not go, once something went or all of it was refused.
  [[nodiscard]] JsonArray left_behind() const {
    JsonArray all;
    const bool settled = stage() != CollectionStage::kPlanned;
    for (const auto& [container, load] : planned_) {
      if (!settled || taken_.contains(container)) continue;
      all.push_back(
          JsonObject{{"container", container}, {"name", name_of("container", container)}});
    }
    return all;
  }

  const Definitions& definitions_;
  const rules::Scene& scene_;
  const findings::Judgement& said_;
  const std::string& id_;
  const tallies::CollectionStages& stages_;
  std::map<std::string, const entries::TakenLoad*> planned_;
  std::map<std::string, const CollectionTold*> taken_;
  std::map<std::string, const entries::TakenLoad*> weighed_;
};

using Planned = std::map<std::string, std::optional<base::CivilDate>>;

base::Result<Planned> planned_days(const Ports& ports, const tallies::Collections::ById& all,
                                   std::uint64_t size) {
  Planned days;
  for (const auto& [id, stages] : all) {
    const auto plan = planned_for(ports, stages, size);
    if (!plan) return plan.error();
    days.emplace(id, *plan ? std::optional((*plan)->day) : std::nullopt);
  }
  return days;
}

}  // namespace

base::Result<std::optional<PlannedFor>> planned_for(const Ports& ports,
                                                    const tallies::CollectionStages& stages,
                                                    std::uint64_t size) {
  const CollectionTold* plan = tallies::last_plan(stages);
  if (plan == nullptr) return std::optional<PlannedFor>();
  auto entry = ports.book.entry(plan->seq);
  if (!entry) return entry.error();
  const auto chain = chain_of(ports.book, ports.definitions.catalog, *std::move(entry), size + 1);
  if (!chain) return chain.error();
  const auto* day =
      entries::find_field_as<base::CivilDate>(chain->effective.fields, "planned_date");
  if (day == nullptr) return std::optional<PlannedFor>();
  const entries::Entry& newest =
      chain->corrections.empty() ? chain->entry : chain->corrections.back();
  return std::optional(PlannedFor{*day, plan->seq, newest.recorded_at});
}

base::Result<Json> show_collections(const Ports& ports) {
  const auto still = ports.live.still();
  const tallies::State& state = *still;
  const auto all = state.collections();
  const auto planned = planned_days(ports, all, state.size());
  if (!planned) return planned.error();
  const rules::Scene scene(state, ports.clock.now(), zone_of(state));
  const auto book = rules_in_force(ports, state);
  if (!book) return book.error();
  const findings::Judgement said = rules::judge(**book, scene);
  std::vector<std::pair<base::CivilDate, JsonObject>> by_day;
  for (const auto& [id, stages] : all) {
    const Collection collection(ports.definitions, scene, said, id, stages);
    const auto& planned_for = planned->at(id);
    by_day.emplace_back(collection.day(planned_for), collection.json(planned_for));
  }
  std::stable_sort(by_day.begin(), by_day.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  JsonArray list;
  for (auto& [day, json] : by_day) list.emplace_back(std::move(json));
  return Json(JsonObject{{"today", base::format_date(scene.today())},
                         {"book_size", state.size()},
                         {"collections", std::move(list)}});
}

}  // namespace benchwarden::workshop
