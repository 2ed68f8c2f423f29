#include "workshop/due.h"

#include <algorithm>
#include <optional>
#include <tuple>
#include <utility>

#include "base/text.h"
#include "workshop/chain.h"
#include "workshop/judgement.h"

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
  return std::optional(
      DueItem{*day, "planned-collection", "collection/" + plan.collection, "",
              plan_sentence(wording, plan, *day),
              wording.text("due.recorded_in", {{"entry", std::to_string(plan.seq)}}), std::nullopt,
              newest.recorded_at});
}

std::string part_of(const findings::Values& values) {
  for (const auto& [name, shown] : values) {
    if (name == "which") return shown.value;
  }
  return "";
}

/// When the newest entry about the subject was recorded; the first of the book where none is.
base::Result<base::Instant> last_changed(const book::Book& book, const std::string& subject) {
  book::Selection about;
  about.subject = subject;
  about.limit = 1;
  const auto newest = book.select(about);
  if (!newest) return newest.error();
  if (!newest->empty()) return newest->front().recorded_at;
  const auto first = book.entry(1);
  if (!first) return first.error();
  return first->recorded_at;
}

/// What the rules ask for up to `last`, without the time of its last change.
base::Result<std::vector<DueItem>> due_by_rules(const Ports& ports, base::CivilDate last) {
  const auto state = ports.live.view();
  const auto said = judge(ports, *state, ports.clock.now());
  if (!said) return said.error();
  std::vector<DueItem> items;
  for (const findings::DueItem& one : said->due) {
    if (one.day > last) continue;
    items.push_back(
        {one.day,
         one.authority.rule,
         subject_text(one.subject),
         part_of(one.values),
         sentence_of(ports.definitions, *state, one.subject, one.says + "-due", one.values),
         one.authority.citation,
         one.authority.confidence,
         {}});
  }
  return items;
}

base::Status<> add_due_by_rules(const Ports& ports, base::CivilDate last,
                                std::vector<DueItem>& items) {
  auto by_rules = due_by_rules(ports, last);
  if (!by_rules) return by_rules.error();
  for (DueItem& item : *by_rules) {
    const auto changed = last_changed(ports.book, item.subject);
    if (!changed) return changed.error();
    item.last_changed = *changed;
    items.push_back(std::move(item));
  }
  return base::Done{};
}

base::Json confidence_json(const DueItem& item) {
  return item.confidence ? base::Json(word(*item.confidence)) : base::Json(nullptr);
}

/// The collections that were planned and of which nothing was taken yet.
base::Status<> add_planned(const Ports& ports, std::vector<DueItem>& items) {
  std::vector<Plan> plans;
  std::uint64_t size = 0;
  {
    const auto state = ports.live.view();
    size = state->size();
    for (const auto& [collection, stages] : state->collections()) {
      if (auto plan = open_plan(*state, collection, stages)) plans.push_back(*std::move(plan));
    }
  }
  for (const Plan& plan : plans) {
    auto item = due_of(ports, plan, size);
    if (!item) return item.error();
    if (*item) items.push_back(**std::move(item));
  }
  return base::Done{};
}

}  // namespace

base::Result<std::vector<DueItem>> due_items(const Ports& ports, int days_ahead) {
  std::vector<DueItem> items;
  const auto planned = add_planned(ports, items);
  if (!planned) return planned.error();
  const auto by_rules = add_due_by_rules(ports, base::add_days(today(ports), days_ahead), items);
  if (!by_rules) return by_rules.error();
  std::sort(items.begin(), items.end(), [](const DueItem& a, const DueItem& b) {
    return std::tie(a.day, a.rule, a.subject, a.part) < std::tie(b.day, b.rule, b.subject, b.part);
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
                                       {"part", item.part},
                                       {"sentence", item.sentence},
                                       {"citation", item.citation},
                                       {"confidence", confidence_json(item)}});
  }
  return base::Json(
      base::JsonObject{{"today", base::format_date(today(ports))}, {"items", std::move(list)}});
}

}  // namespace benchwarden::workshop
