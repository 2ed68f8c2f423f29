#include "workshop/due.h"

#include <algorithm>
#include <optional>
#include <tuple>
#include <utility>

#include "base/text.h"
#include "workshop/collections.h"
#include "workshop/judgement.h"
#include "workshop/rule_adoption.h"

namespace benchwarden::workshop {
namespace {

using reports::ReportWording;

/// A collection as planned last.
struct Plan {
  std::string collection;
  tallies::CollectionStages stages;
  std::vector<std::string> containers;  ///< as people call them
};

std::string container_name(const tallies::State& state, const std::string& id) {
  const tallies::Thing* thing = state.thing("container", id);
  const auto* name =
      thing == nullptr ? nullptr : entries::find_field_as<entries::Text>(thing->attributes, "name");
  return name == nullptr ? id : name->text;
}

std::optional<Plan> open_plan(const tallies::State& state, const std::string& collection,
                              const tallies::CollectionStages& stages) {
  const tallies::CollectionTold* last = tallies::open_plan(stages);
  if (last == nullptr) return std::nullopt;
  Plan plan{collection, stages, {}};
  for (const entries::TakenLoad& load : last->takes.loads) {
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

base::Result<std::optional<DueItem>> due_of(const Ports& ports, const Plan& plan,
                                            std::uint64_t size) {
  const auto planned = planned_for(ports, plan.stages, size);
  if (!planned) return planned.error();
  if (!*planned) return std::optional<DueItem>();
  const auto& [day, entry, told_at] = **planned;
  const ReportWording& wording = ports.definitions.reports.wording;
  return std::optional(DueItem{day, "planned-collection", "collection/" + plan.collection, "",
                               plan_sentence(wording, plan, day),
                               wording.text("due.recorded_in", {{"entry", std::to_string(entry)}}),
                               entry, std::nullopt, told_at});
}

/// The newest entry that told of the subject; the first of the book where the subject is not in the
/// register.
std::uint64_t newest_about(const tallies::State& state, const findings::Subject& subject) {
  const bool of_all = subject.thing_class.empty();
  const tallies::Thing* thing =
      of_all ? state.thing("workshop", "site") : state.thing(subject.thing_class, subject.id);
  std::uint64_t newest = thing == nullptr ? 1 : thing->changed_seq;
  for (const tallies::Record& record : state.records(subject.thing_class, subject.id)) {
    newest = std::max<std::uint64_t>(newest, record.seq);
  }
  if (subject.thing_class == "collection") {
    for (const auto& told : state.collection(subject.id)) newest = std::max(newest, told.seq);
  }
  if (subject.thing_class != "container") return newest;
  for (const tallies::Event& event : state.timeline(subject.id).events()) {
    newest = std::max<std::uint64_t>(newest, event.seq);
  }
  return newest;
}

/// The newest entry that may have moved the day of anything: the rules, the site with its opening
/// days and zone, and corrections, of whatever.
std::uint64_t newest_about_all(const tallies::State& state) {
  const tallies::Thing* site = state.thing("workshop", "site");
  std::uint64_t newest = std::max(newest_adoption(state), site == nullptr ? 1 : site->changed_seq);
  for (const tallies::Mark& mark : state.corrected()) {
    newest = std::max(newest, mark.corrected_by);
  }
  return newest;
}

struct DueWanted {
  Persons persons = Persons::kById;
  int days_ahead = kDueDaysAhead;
};

/// What the rules ask for up to a day, and the number of the newest entry behind it.
using Asked = std::vector<std::pair<DueItem, std::uint64_t>>;
base::Result<Asked> asked_by_rules(const Ports& ports, const tallies::State& state,
                                   base::Instant moment, const DueWanted& wanted) {
  const NameBook* names = wanted.persons == Persons::kByName ? &ports.names : nullptr;
  const auto said = judge(ports, state, moment);
  if (!said) return said.error();
  const base::CivilDate last = base::add_days(zone_of(state).date_of(moment), wanted.days_ahead);
  Asked asked;
  const std::uint64_t of_all = newest_about_all(state);
  for (const findings::DueItem& one : said->due) {
    if (one.day > last) continue;
    DueItem item{
        one.day,
        one.authority.rule,
        subject_text(one.subject),
        std::string(findings::part_of(one.values)),
        sentence_of(ports.definitions, state, one.subject, one.says + "-due", one.values, names),
        one.authority.citation,
        std::nullopt,
        one.authority.confidence,
        {}};
    asked.emplace_back(std::move(item), std::max(of_all, newest_about(state, one.subject)));
  }
  return asked;
}

base::Status<> add_due_by_rules(const Ports& ports, Asked asked, std::vector<DueItem>& items) {
  for (auto& [item, newest] : asked) {
    const auto entry = ports.book.entry(newest);
    if (!entry) return entry.error();
    item.last_changed = entry->recorded_at;
    items.push_back(std::move(item));
  }
  return base::Done{};
}

base::Json confidence_json(const DueItem& item) {
  return item.confidence ? base::Json(word(*item.confidence)) : base::Json(nullptr);
}

/// The collections that were planned and of which nothing was taken yet.
std::vector<Plan> open_plans(const tallies::State& state) {
  std::vector<Plan> plans;
  for (const auto& [collection, stages] : state.collections()) {
    if (auto plan = open_plan(state, collection, stages)) plans.push_back(*std::move(plan));
  }
  return plans;
}

base::Status<> add_planned(const Ports& ports, const std::vector<Plan>& plans, std::uint64_t size,
                           std::vector<DueItem>& items) {
  for (const Plan& plan : plans) {
    auto item = due_of(ports, plan, size);
    if (!item) return item.error();
    if (*item) items.push_back(**std::move(item));
  }
  return base::Done{};
}

/// What the state tells of what is due; the book has the rest.
struct DueTold {
  std::vector<Plan> plans;
  base::Result<Asked> asked;
  std::uint64_t size = 0;
};

DueTold told_by(const Ports& ports, const tallies::State& state, base::Instant moment,
                const DueWanted& wanted) {
  return {open_plans(state), asked_by_rules(ports, state, moment, wanted), state.size()};
}

base::Result<std::vector<DueItem>> items_of(const Ports& ports, DueTold told) {
  if (!told.asked) return told.asked.error();
  std::vector<DueItem> items;
  const auto planned = add_planned(ports, told.plans, told.size, items);
  if (!planned) return planned.error();
  const auto by_rules = add_due_by_rules(ports, *std::move(told.asked), items);
  if (!by_rules) return by_rules.error();
  std::sort(items.begin(), items.end(), [](const DueItem& a, const DueItem& b) {
    return std::tie(a.day, a.rule, a.subject, a.part) < std::tie(b.day, b.rule, b.subject, b.part);
  });
  return items;
}

}  // namespace

base::Result<std::vector<DueItem>> due_items(const Ports& ports, Persons persons, int days_ahead) {
  // The view is let go before the book is read, so that who records waits for no disk.
  DueTold told = told_by(ports, *ports.live.still(), ports.clock.now(), {persons, days_ahead});
  return items_of(ports, std::move(told));
}

base::Result<std::vector<DueItem>> due_items_at(const Ports& ports, const tallies::State& state,
                                                base::Instant moment, Persons persons,
                                                int days_ahead) {
  return items_of(ports, told_by(ports, state, moment, {persons, days_ahead}));
}

base::Result<base::Json> show_due(const Ports& ports) {
  const auto items = due_items(ports, Persons::kByName);
  if (!items) return items.error();
  base::JsonArray list;
  for (const DueItem& item : *items) {
    list.emplace_back(base::JsonObject{{"day", base::format_date(item.day)},
                                       {"rule", item.rule},
                                       {"subject", item.subject},
                                       {"part", item.part},
                                       {"sentence", item.sentence},
                                       {"citation", item.citation},
                                       {"confidence", confidence_json(item)},
                                       {"entry", item.entry ? base::Json(*item.entry) : nullptr}});
  }
  return base::Json(
      base::JsonObject{{"today", base::format_date(today(ports))}, {"items", std::move(list)}});
}

}  // namespace benchwarden::workshop
