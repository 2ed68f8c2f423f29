#include "rules/contents.h"

#include <algorithm>

#include "rules/limits.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

/// Whether a test found more halogens than the figure, not rebutted; none where it does not tell.
std::optional<bool> finds_halogens(const tallies::Record& test, const RuleFigure& most) {
  if (!test.has("halogens_ppm")) return std::nullopt;
  if (test.word("rebuttal") == "rebutted") return false;
  const auto found = test.measure("halogens_ppm", "ppm");
  return found && found->value.thousandths > most.value.thousandths;
}

/// What the last test of a thing told of halogens whose sample was taken between two moments; none
/// where none did.
std::optional<bool> tested(const Scene& scene, const findings::Subject& subject,
                           const RuleFigure& most, const Moment& from, const Moment& until) {
  for (const tallies::Record* test : NewestFirst(scene, subject, {"oil-test"})) {
    const auto found = finds_halogens(*test, most);
    const base::Instant sampled = sampled_at(scene, *test);
    if (!found || from.is_after(sampled, test->seq)) continue;
    if (until.is_after(sampled, test->seq)) return found;
  }
  return std::nullopt;
}

}  // namespace

std::vector<Holding> holdings(const Rule& rule, const Scene& scene, Retired retired) {
  std::vector<Holding> found;
  for (const auto& [id, thing] : scene.state().things("container")) {
    findings::Subject container{"container", id};
    if (thing.retired && retired == Retired::kLeftOut) continue;
    if (!scene.applies(rule, container)) continue;
    Holding holding;
    holding.stream =
        tallies::stream_of_container(scene.state(), id).value_or(tallies::StreamFacts{});
    holding.attributes = &thing.attributes;
    holding.stream_attributes = &scene.stream_of(container);
    holding.container = std::move(container);
    found.push_back(std::move(holding));
  }
  return found;
}

base::Instant entered_since(const Scene& scene, const std::string& container,
                            std::initializer_list<std::string_view> attributes) {
  base::Instant latest;
  for (const std::string_view attribute : attributes) {
    const auto since = scene.state().under_care().holds_since("container", container, attribute);
    latest = std::max(latest, since.value_or(latest));
  }
  return latest;
}

std::optional<base::Instant> last_emptied(const Scene& scene, const std::string& container) {
  const tallies::Timeline& timeline = scene.state().timeline(container);
  const std::size_t now = timeline.count_before(just_after(scene.now()));
  const std::size_t first = timeline.standing_around(now).first;
  return first == 0 ? std::nullopt : std::optional(timeline.events()[first - 1].at);
}

SettingSpec starts_with() { return {"starts_with", {}, false}; }

base::Instant clock_from(const Rule& rule, const Scene& scene, const findings::Subject& container) {
  const std::string_view field = rule.setting("starts_with");
  if (field.empty()) return base::kEarliest;
  const auto holds = [&](const entries::Fields& known) {
    return std::all_of(rule.applies.begin(), rule.applies.end(), [&](const Condition& condition) {
      const bool meant = condition.of == Condition::Of::kSubject && condition.field == field;
      return !meant || std::find(condition.codes.begin(), condition.codes.end(),
                                 tallies::word(known, field)) != condition.codes.end();
    });
  };
  const base::Instant since = held_since(scene, container, holds);
  const auto said = scene.state().under_care().said_at(container.thing_class, container.id);
  // What held from the first entry on is not known to have been otherwise before it.
  const bool always =
      std::all_of(said.begin(), said.end(), [&](base::Instant moment) { return moment >= since; });
  return always ? base::kEarliest : since;
}

base::Instant sampled_at(const Scene& scene, const tallies::Record& record) {
  const auto day = record.date("sampled_on");
  if (!day || *day >= scene.day_of(record.at)) return record.at;
  return scene.zone().start_of(*day);
}

base::Instant sampled_by(const Scene& scene, const tallies::Record& record) {
  const auto day = record.date("sampled_on");
  return day ? std::min(record.at, scene.after(*day)) : record.at;
}

bool is_halogenated(const Scene& scene, const Holding& holding, const tallies::Standing& standing,
                    const RuleFigure& most) {
  const auto& events = scene.state().timeline(holding.container.id).events();
  Moment from;
  Moment until{just_after(scene.now()), 0};
  if (standing.first > 0) from = {events[standing.first - 1].at, events[standing.first - 1].seq};
  if (standing.last < events.size() && events[standing.last].at <= scene.now()) {
    until = {events[standing.last].at, events[standing.last].seq};
  }
  const auto own = tested(scene, holding.container, most, from, until);
  return own ? *own : tested(scene, {"stream", holding.stream.id}, most, {}, until).value_or(false);
}

}  // namespace benchwarden::rules
