#include <algorithm>
#include <optional>
#include <set>
#include <utility>

#include "rules/contents.h"
#include "rules/limits.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/suspicions.h"
#include "rules/told.h"
#include "rules/waste_kind.h"
#include "tallies/content_age.h"

namespace benchwarden::rules {
namespace {

using findings::Subject;
using tallies::EventKind;
using Words = std::vector<std::string>;

constexpr std::string_view kMixedSays = "mixing-over";
constexpr std::string_view kHalogenatedSays = "mixing-halogenated-over";
constexpr std::string_view kSuspectedSays = "mixing-suspected-over";

/// Something came in that does not belong there, or was suspected to.
struct Foreign {
  base::Instant at;
  std::uint64_t seq = 0;
  std::string what;  ///< a code of waste_type, or of contamination where it was suspected
  bool suspected = false;
  bool halogenated = false;
};

std::string_view says_of(const Foreign& one) {
  if (one.suspected) return kSuspectedSays;
  return one.halogenated ? kHalogenatedSays : kMixedSays;
}

/// The types of a setting; "others" stands for all that does not belong with the container's own.
bool is_foreign(const Words& foreign, const WasteKind& brought, const WasteKind& own) {
  if (!belongs_elsewhere(brought, own) && !own.type.empty()) return false;
  if (foreign == Words{"others"}) return !own.type.empty();
  return std::find(foreign.begin(), foreign.end(), brought.type) != foreign.end();
}

/// Whether a test of the content shows what the rule asks for to take it as it is labelled again:
/// halogens at or below its figure, a flash point at or above it.
bool is_cleared(const Rule& rule, const tallies::Record& test) {
  const RuleFigure* halogens = rule.figure("halogens");
  const RuleFigure* flash = rule.figure("flash");
  const auto tested_halogens = test.measure("halogens_ppm", "ppm");
  const auto tested_flash = test.measure("flash_point_c", "c");
  if (halogens == nullptr && flash == nullptr) return false;
  const bool few =
      halogens == nullptr || (tested_halogens && (tested_halogens->value <= halogens->value ||
                                                  test.word("rebuttal") == "rebutted"));
  const bool high = flash == nullptr || (tested_flash && tested_flash->value >= flash->value);
  return few && high;
}

/// From when on the content of a container counts: since it was last emptied, or since the sample
/// of a test that cleared it.
base::Instant start_of(const Rule& rule, const Scene& scene, const Subject& container,
                       const Moment& end) {
  base::Instant start;
  const tallies::Timeline& timeline = scene.state().timeline(container.id);
  const auto& events = timeline.events();
  const auto last = std::partition_point(events.begin(), events.end(), [&](const auto& event) {
    return end.is_after(event.at, event.seq);
  });
  const auto place = static_cast<std::size_t>(last - events.begin());
  const std::size_t first = timeline.standing_around(place).first;
  if (first > 0) start = events[first - 1].at;
  const std::string stream(tallies::word(scene.attributes(container), "stream"));
  for (const Subject& tested : {container, Subject{"stream", stream}}) {
    for (const tallies::Record* record : NewestFirst(scene, tested, {"oil-test"})) {
      if (record->at <= start) break;
      if (!is_cleared(rule, *record)) continue;
      const base::Instant sampled = sampled_by(scene, *record);
      if (end.is_after(sampled, record->seq)) start = std::max(start, sampled);
    }
  }
  return start;
}

/// Looks for what came into containers that does not belong with one type of waste, and follows
/// it from one into the other.
class Search {
 public:
  Search(const Rule& rule, const Scene& scene, WasteKind own)
      : rule_(rule),
        scene_(scene),
        own_(std::move(own)),
        foreign_(listed_words(rule.setting("foreign"))),
        suspected_(listed_words(rule.setting("suspected"))) {}

  /// In order of time. `steps` is how many moves from container to container are followed back.
  std::vector<Foreign> run(const Subject& container, const Moment& end, int steps) const {
    const base::Instant from = start_of(rule_, scene_, container, end);
    std::vector<Foreign> found;
    look_at_records(container, from, end, found);
    look_at_moves(container, from, end, steps, found);
    std::sort(found.begin(), found.end(), [](const Foreign& a, const Foreign& b) {
      return a.at != b.at ? a.at < b.at : a.seq < b.seq;
    });
    return found;
  }

 private:
  void look_at_records(const Subject& container, base::Instant from, const Moment& end,
                       std::vector<Foreign>& found) const {
    const tallies::RecordList& records = scene_.state().records("container", container.id);
    for (auto record = records.rbegin(); record != records.rend(); ++record) {
      if (record->at < from) break;
      const bool counts = !record->struck && end.is_after(record->at, record->seq);
      const WasteKind brought = counts ? brought_by(*record) : WasteKind();
      if (brought.type.empty()) continue;
      const std::string_view suspicion = record->word("contamination");
      if (is_foreign(foreign_, brought, own_)) {
        found.push_back({record->at, record->seq, brought.type, false, brought.halogenated});
      } else if (std::find(suspected_.begin(), suspected_.end(), suspicion) != suspected_.end()) {
        found.push_back({record->at, record->seq, std::string(suspicion), true, false});
      }
    }
  }

  void look_at_moves(const Subject& container, base::Instant from, const Moment& end, int steps,
                     std::vector<Foreign>& found) const {
    const auto& events = scene_.state().timeline(container.id).events();
    for (auto event = events.rbegin(); event != events.rend() && event->at >= from; ++event) {
      const bool counts = event->acts && end.is_after(event->at, event->seq);
      if (!counts || event->kind != EventKind::kMovedIn) continue;
      const Subject source{"container", tallies::source_of(scene_.state(), *event)};
      if (source.id.empty()) continue;
      const WasteKind kind = kind_of_stream(scene_.stream_of(source));
      if (is_foreign(foreign_, kind, own_)) {
        found.push_back({event->at, event->seq, kind.type, false, kind.halogenated});
      } else if (steps > 0) {
        const auto before = run(source, {event->at, event->seq}, steps - 1);
        if (before.empty()) continue;
        const Foreign& first = before.front();
        found.push_back({event->at, event->seq, first.what, first.suspected, first.halogenated});
      }
    }
  }

  const Rule& rule_;
  const Scene& scene_;
  WasteKind own_;
  Words foreign_;
  Words suspected_;
};

/// Another type of waste poured in, or a suspicion of it: until the container is emptied, or a
/// test shows what the rule asks for. It goes with the content from container to container.
void judge_mixing(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  constexpr int kSteps = 3;  // a can, a drum, a tank; and content that goes to and fro has an end
  const Moment now{just_after(scene.now()), 0};
  for (const Holding& holding : holdings(rule, scene, Retired::kLeftOut)) {
    const WasteKind own = kind_of_stream(*holding.stream_attributes);
    const Search search(rule, scene, own);
    const std::vector<Foreign> foreign = search.run(holding.container, now, kSteps);
    if (foreign.empty()) continue;
    const Foreign& first = foreign.front();
    auto finding = finding_of(rule, holding.container, says_of(first), weight(rule));
    finding.since = first.at;
    finding.values = {
        {"measured", shown_code(first.what, first.suspected ? "contamination" : "waste_type")},
        {"own", shown_word(tallies::word(*holding.stream_attributes, "name"))},
        {"day", shown(scene.day_of(first.at))}};
    std::set<std::uint64_t> told_by;
    for (const Foreign& one : foreign) told_by.insert(one.seq);
    finding.entries.assign(told_by.begin(), told_by.end());
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

bool tells_suspicion(const findings::Finding& finding) { return finding.says == kSuspectedSays; }

std::vector<RuleKind> mixing_kinds() {
  return {{"mixing",
           {{"halogens", {"ppm"}, false}, {"flash", {"c"}, false}},
           {weighs(),
            {"foreign", {}, false, Word::kForeignTypes},
            {"suspected", {}, false, Word::kSuspicions}},
           judge_mixing,
           "container"}};
}

}  // namespace benchwarden::rules
