#include "rules/scene.h"

#include <algorithm>
#include <array>
#include <utility>

#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

std::optional<int> weekday_index(std::string_view code) {
  constexpr std::array<std::string_view, 7> kDays{"monday", "tuesday",  "wednesday", "thursday",
                                                  "friday", "saturday", "sunday"};
  const auto found = std::find(kDays.begin(), kDays.end(), code);
  if (found == kDays.end()) return std::nullopt;
  return static_cast<int>(found - kDays.begin());
}

void open_weekdays(const entries::Fields& workshop, calculations::OpeningDays& opening) {
  opening.open.fill(true);
  const auto* days = entries::find_field_as<entries::List>(workshop, "opening_days");
  if (days == nullptr || days->rows.empty()) return;
  opening.open.fill(false);
  for (const entries::Record& row : days->rows) {
    const auto* code = entries::find_scalar_as<entries::Code>(row, "weekday");
    const auto index = code == nullptr ? std::nullopt : weekday_index(code->slug);
    if (index) opening.open.at(static_cast<std::size_t>(*index)) = true;
  }
}

/// A year is the longest a closure is taken to last: a slip of the hand must not fill the memory.
void close_days(const entries::Fields& closure, calculations::OpeningDays& opening) {
  constexpr int kDaysMax = 366;
  const auto* first = entries::find_field_as<base::CivilDate>(closure, "first_day");
  const auto* last = entries::find_field_as<base::CivilDate>(closure, "last_day");
  if (first == nullptr || last == nullptr) return;
  base::CivilDate day = *first;
  for (int i = 0; i < kDaysMax && day <= *last && day < base::kLastDay; ++i) {
    opening.closed.push_back(day);
    day = base::add_days(day, 1);
  }
}

calculations::OpeningDays opening_of(const tallies::State& state, const entries::Fields& workshop) {
  calculations::OpeningDays opening;
  open_weekdays(workshop, opening);
  for (const auto& [id, thing] : state.things("closure")) {
    if (!thing.retired) close_days(thing.attributes, opening);
  }
  std::sort(opening.closed.begin(), opening.closed.end());
  return opening;
}

const entries::Fields& none() {
  static const entries::Fields kNone;
  return kNone;
}

bool has_code(const Condition& condition, std::string_view word) {
  return std::find(condition.codes.begin(), condition.codes.end(), word) != condition.codes.end();
}

}  // namespace

Scene::Scene(const tallies::State& state, base::Instant now, base::Zone zone)
    : state_(state),
      now_(now),
      zone_(zone),
      today_(zone.date_of(now)),
      opening_(opening_of(state, workshop())) {}

const entries::Fields& Scene::workshop() const {
  const tallies::Thing* site = state_.thing("workshop", "site");
  return site == nullptr ? none() : site->attributes;
}

const entries::Fields& Scene::attributes(const findings::Subject& subject) const {
  const tallies::Thing* thing = state_.thing(subject.thing_class, subject.id);
  return thing == nullptr ? none() : thing->attributes;
}

const entries::Fields& Scene::stream_of(const findings::Subject& subject) const {
  if (subject.thing_class == "stream") return attributes(subject);
  if (subject.thing_class != "container") return none();
  return attributes({"stream", std::string(tallies::word(attributes(subject), "stream"))});
}

base::Instant Scene::after(base::CivilDate day) const {
  if (day >= base::kLastDay) return base::Instant{INT64_MAX};
  return zone_.start_of(base::add_days(day, 1));
}

bool Scene::applies(const Rule& rule, const findings::Subject& subject) const {
  return std::all_of(rule.applies.begin(), rule.applies.end(), [&](const Condition& condition) {
    switch (condition.of) {
      case Condition::Of::kSubject:
        return has_code(condition, tallies::word(attributes(subject), condition.field));
      case Condition::Of::kStream:
        return has_code(condition, tallies::word(stream_of(subject), condition.field));
      case Condition::Of::kWorkshop:
        return has_code(condition, tallies::word(workshop(), condition.field));
    }
    return false;
  });
}

std::vector<findings::Subject> Scene::subjects(const Rule& rule,
                                               std::string_view thing_class) const {
  std::vector<findings::Subject> found;
  for (const auto& [id, thing] : state_.things(thing_class)) {
    findings::Subject subject{std::string(thing_class), id};
    if (!thing.retired && applies(rule, subject)) found.push_back(std::move(subject));
  }
  return found;
}

const tallies::Record* Scene::last(const findings::Subject& subject, std::string_view kind) const {
  const tallies::RecordList& records = state_.records(subject.thing_class, subject.id);
  const auto& places = records.of_kind(kind);
  for (auto place = places.rbegin(); place != places.rend(); ++place) {
    const tallies::Record& record = records[*place];
    if (!record.struck && record.at <= now_) return &record;
  }
  return nullptr;
}

base::CivilDate Scene::later(const Rule& rule, std::string_view figure, base::CivilDate day) const {
  const RuleFigure* span = rule.figure(figure);
  if (span == nullptr) return day;
  const auto count =
      static_cast<int>(std::clamp<std::int64_t>(span->value.thousandths / 1000, 0, 1'000'000));
  std::optional<base::CivilDate> found;
  if (span->unit == "months" || span->unit == "years") {
    const int months = std::min(count, 1200) * (span->unit == "years" ? 12 : 1);
    found = calculations::add_months(day, std::min(months, 1200));
  } else if (rule.working_days) {
    found = calculations::add_open_days(opening_, day, count);
  } else {
    found = calculations::days_after(day, count);
  }
  return found.value_or(base::kLastDay);
}

int warn_days(const Rule& rule) {
  const RuleFigure* warn = rule.figure("warn");
  return warn == nullptr ? 0 : static_cast<int>(warn->value.thousandths / 1000);
}

void judge_deadline(const Rule& rule, const Scene& scene, Deadline deadline,
                    findings::Judgement& said) {
  said.due.push_back(
      {rule.authority, deadline.subject, deadline.says, deadline.day, deadline.values});
  const base::CivilDate near = base::add_days(deadline.day, -warn_days(rule));
  const bool over = scene.today() > deadline.day;
  if (!over && (warn_days(rule) == 0 || scene.today() < near)) return;
  findings::Finding finding;
  finding.authority = rule.authority;
  finding.subject = std::move(deadline.subject);
  finding.says = std::move(deadline.says) + (over ? "-over" : "-due");
  finding.severity = over ? findings::Severity::kOver : findings::Severity::kDue;
  finding.since = over ? scene.after(deadline.day) : scene.zone().start_of(near);
  finding.due = deadline.day;
  finding.values = std::move(deadline.values);
  finding.entries = std::move(deadline.entries);
  said.findings.push_back(std::move(finding));
}

}  // namespace benchwarden::rules
