#include "workshop/due.h"

#include <algorithm>
#include <optional>
#include <tuple>
#include <utility>

#include "base/text.h"
#include "workshop/chain.h"

namespace benchwarden::workshop {
namespace {

using reports::ReportWording;

/// A collection as planned last.
struct Plan {
  std::string collection;
  std::uint64_t seq = 0;
  std::vector<std::string> containers;  ///< as people call them
};

std::string container_name(const tallies::State& state, const std::string& id) {
  const tallies::Thing* thing = state.thing("container", id);
  const auto* name =
      thing == nullptr ? nullptr : entries::find_field_as<entries::Text>(thing->attributes, "name");
  return name == nullptr ? id : name->text;
}

/// The plan that stands: the last one, as long as nothing came after planning.
std::optional<Plan> open_plan(const tallies::State& state, const std::string& collection,
                              const tallies::CollectionStages& stages) {
  const bool gone = std::any_of(stages.begin(), stages.end(), [](const auto& told) {
    return told.takes.stage != entries::CollectionStage::kPlanned;
  });
  if (gone || stages.empty()) return std::nullopt;
  Plan plan{collection, stages.back().seq, {}};
  for (const entries::TakenLoad& load : stages.back().takes.loads) {
    plan.containers.push_back(container_name(state, load.container));
  }
  return plan;
}

std::string day_text(const ReportWording& wording, base::CivilDate day) {
  return wording.text(
      "due.day", {{"day", std::to_string(day.day)}, {"month", wording.month(base::month_of(day))}});
}

std::string plan_sentence(const ReportWording& wording, const Plan& plan, base::CivilDate day) {
  const std::string on = day_text(wording, day);
  if (plan.containers.empty()) {
    return wording.text("due.collection_planned", {{"collection", plan.collection}, {"day", on}});
  }
  return wording.text("due.collection_planned_of",
                      {{"collection", plan.collection},
                       {"containers", base::join(plan.containers, ", ")},
                       {"day", on}});
}

/// The tallies hold no planned day, so it is read from the entry as corrections left it in a book
/// of `size`.
base::Result<std::optional<DueItem>> due_of(const Ports& ports, const Plan& plan,
                                            std::uint64_t size) {
  auto entry = ports.book.entry(plan.seq);
  if (!entry) return entry.error();
  const auto chain = chain_of(ports.book, ports.definitions.catalog, *std::move(entry), size + 1);
  if (!chain) return chain.error();
  const auto* day =
      entries::find_field_as<base::CivilDate>(chain->effective.fields, "planned_date");
  if (day == nullptr) return std::optional<DueItem>();
  const entries::Entry& newest =
      chain->corrections.empty() ? chain->entry : chain->corrections.back();
  const ReportWording& wording = ports.definitions.reports.wording;
  return std::optional(DueItem{
      *day, "planned-collection", "collection/" + plan.collection,
      plan_sentence(wording, plan, *day),
      wording.text("due.recorded_in", {{"entry", std::to_string(plan.seq)}}), newest.recorded_at});
}

}  // namespace

base::Result<std::vector<DueItem>> due_items(const Ports& ports) {
  std::vector<Plan> plans;
  std::uint64_t size = 0;
  {
    const auto state = ports.live.view();
    size = state->size();
    for (const auto& [collection, stages] : state->collections()) {
      if (auto plan = open_plan(*state, collection, stages)) plans.push_back(*std::move(plan));
    }
  }
  std::vector<DueItem> items;
  for (const Plan& plan : plans) {
    auto item = due_of(ports, plan, size);
    if (!item) return item.error();
    if (*item) items.push_back(**std::move(item));
  }
  std::sort(items.begin(), items.end(), [](const DueItem& a, const DueItem& b) {
    return std::tie(a.day, a.rule, a.subject) < std::tie(b.day, b.rule, b.subject);
  });
  return items;
}

base::Result<base::Json> show_due(const Ports& ports) {
  const auto items = due_items(ports);
  if (!items) return items.error();
  base::JsonArray list;
  for (const DueItem& item : *items) {
    list.emplace_back(base::JsonObject{{"day", base::format_date(item.day)},
                                       {"rule", item.rule},
                                       {"subject", item.subject},
                                       {"sentence", item.sentence},
                                       {"citation", item.citation}});
  }
  return base::Json(
      base::JsonObject{{"today", base::format_date(today(ports))}, {"items", std::move(list)}});
}

}  // namespace benchwarden::workshop
