#include <algorithm>
#include <utility>

#include "rules/contents.h"
#include "rules/limits.h"
#include "rules/presumed_oil.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"

namespace benchwarden::rules {
namespace {

using findings::Subject;

bool is_excused(const Rule& rule, const tallies::Record& record) {
  const std::string_view field = rule.setting("unless_field");
  return !field.empty() && record.word(field) == rule.setting("unless_code");
}

/// What a record of a container tells holds for its content: no longer once it was emptied.
bool is_of_content_gone(const Scene& scene, const Subject& subject, const tallies::Record& record) {
  if (subject.thing_class != "container") return false;
  const auto emptied = last_emptied(scene, subject.id);
  return emptied && *emptied > sampled_at(scene, record);
}

/// Whether the value is out of what the rule takes, in the unit of its limit.
bool is_out(const Rule& rule, const RuleFigure& limit, const quantities::Quantity& value) {
  const quantities::Unit* unit = quantities::find_unit(limit.unit);
  const auto converted = unit == nullptr ? base::Result<quantities::Quantity>(value)
                                         : quantities::convert(value, *unit);
  if (!converted) return false;
  const base::Decimal measured = converted->value;
  if (rule.setting("limit_is") == "at-most") return measured > limit.value;
  if (rule.setting("limit_is") == "below") return measured >= limit.value;
  return measured < limit.value;
}

/// The figure of the rule, or what the register says of the subject in its place.
std::optional<RuleFigure> limit_for(const Rule& rule, const Scene& scene, const Subject& subject) {
  const std::string_view attribute = rule.setting("attribute");
  if (attribute.empty()) return *rule.figure("limit");
  const auto* rated =
      entries::find_field_as<quantities::Quantity>(scene.attributes(subject), attribute);
  if (rated == nullptr || rated->unit == nullptr) return std::nullopt;
  return RuleFigure{rated->value, std::string(rated->unit->id), rule.authority.confidence};
}

/// Of the entries about a subject that tell the field the one that speaks of the latest moment: a
/// result that comes in late says nothing against a newer sample.
const tallies::Record* last_telling(const Rule& rule, const Scene& scene, NewestFirst told) {
  const tallies::Record* found = nullptr;
  base::Instant sampled = base::kEarliest;
  for (const tallies::Record* one : told) {
    if (found != nullptr && one->at <= sampled) break;  // none of them speaks of a later moment
    if (!one->quantity(rule.setting("field"))) continue;
    const base::Instant moment = sampled_by(scene, *one);
    if (found != nullptr && moment <= sampled) continue;
    found = one;
    sampled = moment;
  }
  return found;
}

void judge_value_of(const Rule& rule, const Scene& scene, const Subject& subject,
                    findings::Judgement& said) {
  const auto kinds = listed_words(rule.setting("kind"));
  const tallies::Record* record = last_telling(rule, scene, NewestFirst(scene, subject, kinds));
  if (record == nullptr || is_of_content_gone(scene, subject, *record)) return;
  const auto value = record->quantity(rule.setting("field"));
  const auto limit = limit_for(rule, scene, subject);
  if (!limit || is_excused(rule, *record) || !is_out(rule, *limit, *value)) return;
  auto finding = finding_of(rule, subject, "recorded-value-over", weight(rule));
  finding.since = record->at;
  finding.values = {{"item", shown_word(rule.setting("item"))},
                    {"measured", shown(value->value, value->unit->id)},
                    {"limit", shown(*limit)},
                    {"day", shown(scene.day_of(record->at))}};
  finding.entries = {record->seq};
  said.findings.push_back(std::move(finding));
}

/// The last value of a field that entries of the kinds told of things of the classes, against a
/// limit: a figure, or with `recorded-over-rating` an attribute of the thing.
void judge_recorded_value(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  for (const std::string& thing_class : listed_words(rule.setting("about"))) {
    for (const Subject& subject : scene.subjects(rule, thing_class)) {
      judge_value_of(rule, scene, subject, said);
    }
  }
}

/// A container that holds something is looked at every so often: counted from the last look, or
/// from when its content first came in, or the container came to where the rule holds.
void judge_content_inspection(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  for (const Subject& container : scene.subjects(rule, "container")) {
    if (!takes_content(rule, scene, container)) continue;
    const auto oldest =
        scene.state().timeline(container.id).oldest_content(just_after(scene.now()));
    if (!oldest) continue;
    const base::Instant filled = std::max(*oldest, clock_from(rule, scene, container));
    const tallies::Record* look = scene.last(container, rule.setting("kind"));
    const bool looked = look != nullptr && look->at > filled;
    Deadline deadline;
    deadline.subject = container;
    deadline.says = "content-inspection";
    const base::CivilDate start = scene.day_of(looked ? look->at : filled);
    deadline.day = scene.later(rule, "limit", start);
    deadline.values = {{"measured", shown_days(base::days_between(start, scene.today()))},
                       {"limit", shown(*rule.figure("limit"))},
                       {"start", shown(start)},
                       {"day", shown(deadline.day)}};
    if (looked) deadline.entries = {look->seq};
    judge_deadline(rule, scene, std::move(deadline), said);
  }
}

}  // namespace

std::vector<RuleKind> tested_kinds() {
  return {{"recorded-value",
           {{"limit", {"ppm", "percent", "c", "bar", "d", "1"}}},
           {weighs(),
            {"limit_is", {"at-most", "below", "at-least"}},
            {"about", {}, true, Word::kThings},
            {"kind", {}, true, Word::kKinds},
            {"field", {}, true, Word::kField},
            {"item", {}},
            {"unless_field", {}, false, Word::kField},
            {"unless_code", {}, false, Word::kCodes, "unless_field"}},
           judge_recorded_value},
          {"recorded-over-rating",
           {},
           {weighs(),
            {"limit_is", {"at-most", "below", "at-least"}},
            {"about", {}},
            {"kind", {}},
            {"field", {}},
            {"item", {}},
            {"attribute", {}}},
           judge_recorded_value},
          {"content-inspection",
           {{"limit", {"d", "months"}}, {"warn", {"d"}, false}, halogens()},
           {{"kind", {}, true, Word::kKind}, starts_with()},
           judge_content_inspection,
           "container"}};
}

}  // namespace benchwarden::rules
