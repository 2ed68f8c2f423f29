#include <algorithm>
#include <array>
#include <utility>

#include "rules/contents.h"
#include "rules/limits.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"

namespace benchwarden::rules {
namespace {

using tallies::EventKind;
using Words = std::vector<std::string>;

/// Something came in that does not belong there, or was suspected to.
struct Foreign {
  base::Instant at;
  std::uint64_t seq = 0;
  std::string what;  ///< a type of waste, or what was suspected
};

/// The type of waste that entries of a kind bring, whatever container they pour it into.
constexpr std::array<std::pair<std::string_view, std::string_view>, 2> kBrought{
    {{"oil-drained", "used-oil"}, {"solvent-waste", "spent-solvent"}}};

std::string_view brought_by(std::string_view kind) {
  for (const auto& [brings, type] : kBrought) {
    if (brings == kind) return type;
  }
  return {};
}

/// The codes of a setting; "others" stands for every type of waste but the container's own.
bool is_foreign(const Words& foreign, std::string_view type, std::string_view own) {
  if (type.empty() || type == own) return false;
  if (foreign == Words{"others"}) return !own.empty();
  return std::find(foreign.begin(), foreign.end(), type) != foreign.end();
}

/// Looks for what came into one container from `from` on.
class Search {
 public:
  Search(const Rule& rule, const Scene& scene, const Holding& holding, base::Instant from)
      : scene_(scene),
        holding_(holding),
        from_(from),
        own_(tallies::word(*holding.stream_attributes, "waste_type")),
        foreign_(listed_words(rule.setting("foreign"))),
        suspected_(listed_words(rule.setting("suspected"))) {}

  std::vector<Foreign> run() {
    look_at_records();
    look_at_moves();
    std::sort(found_.begin(), found_.end(), [](const Foreign& a, const Foreign& b) {
      return a.at != b.at ? a.at < b.at : a.seq < b.seq;
    });
    return std::move(found_);
  }

 private:
  void look_at_records() {
    const tallies::RecordList& records = scene_.state().records("container", holding_.container.id);
    for (auto record = records.rbegin(); record != records.rend(); ++record) {
      if (record->at < from_) break;
      const std::string_view brought = brought_by(record->kind);
      if (record->struck || record->at > scene_.now() || brought.empty()) continue;
      const entries::Fields fields = record->fields();
      const std::string_view suspicion = tallies::word(fields, "contamination");
      if (is_foreign(foreign_, brought, own_)) {
        found_.push_back({record->at, record->seq, std::string(brought)});
      } else if (std::find(suspected_.begin(), suspected_.end(), suspicion) != suspected_.end()) {
        found_.push_back({record->at, record->seq, std::string(suspicion)});
      }
    }
  }

  void look_at_moves() {
    const auto& events = scene_.state().timeline(holding_.container.id).events();
    for (auto event = events.rbegin(); event != events.rend() && event->at >= from_; ++event) {
      if (event->kind != EventKind::kMovedIn || !event->acts || event->at > scene_.now()) continue;
      const std::string_view type = type_moved(*event);
      if (is_foreign(foreign_, type, own_)) {
        found_.push_back({event->at, event->seq, std::string(type)});
      }
    }
  }

  /// The type of waste of the container that this came out of.
  [[nodiscard]] std::string_view type_moved(const tallies::Event& in) const {
    for (const auto& [id, thing] : scene_.state().things("container")) {
      const auto& events = scene_.state().timeline(id).events();
      auto event = std::partition_point(events.begin(), events.end(),
                                        [&](const auto& one) { return one.at < in.at; });
      for (; event != events.end() && event->at == in.at; ++event) {
        const bool out = event->kind == EventKind::kMovedOut && event->acts;
        if (out && event->seq == in.seq && event->part == in.part) {
          return tallies::word(scene_.stream_of({"container", id}), "waste_type");
        }
      }
    }
    return {};
  }

  const Scene& scene_;
  const Holding& holding_;
  base::Instant from_;
  std::string_view own_;
  Words foreign_;
  Words suspected_;
  std::vector<Foreign> found_;
};

/// Whether a test of the content shows what the rule asks for to take it as it is labelled again:
/// halogens at or below its figure, a flash point at or above it.
bool is_cleared(const Rule& rule, const entries::Fields& test) {
  const RuleFigure* halogens = rule.figure("halogens");
  const RuleFigure* flash = rule.figure("flash");
  const auto tested_halogens = tallies::measure(test, "halogens_ppm", "ppm");
  const auto tested_flash = tallies::measure(test, "flash_point_c", "c");
  if (halogens == nullptr && flash == nullptr) return false;
  const bool few =
      halogens == nullptr || (tested_halogens && (tested_halogens->value <= halogens->value ||
                                                  tallies::word(test, "rebuttal") == "rebutted"));
  const bool high = flash == nullptr || (tested_flash && tested_flash->value >= flash->value);
  return few && high;
}

/// From when on content counts: since it was last emptied, or a test cleared it.
base::Instant start_of(const Rule& rule, const Scene& scene, const Holding& holding) {
  base::Instant start = last_emptied(scene, holding.container.id).value_or(base::Instant{});
  for (const findings::Subject& tested :
       {holding.container, findings::Subject{"stream", holding.stream.id}}) {
    const tallies::RecordList& records = scene.state().records(tested.thing_class, tested.id);
    for (auto record = records.rbegin(); record != records.rend(); ++record) {
      if (record->at <= start) break;
      const bool test = record->kind == "oil-test" && !record->struck && record->at <= scene.now();
      if (test && is_cleared(rule, record->fields())) start = record->at;
    }
  }
  return start;
}

/// Another type of waste poured in, or a suspicion of it: until the container is emptied, or a
/// test shows what the rule asks for.
void judge_mixing(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  for (const Holding& holding : holdings(rule, scene, Retired::kLeftOut)) {
    const base::Instant from = start_of(rule, scene, holding);
    const std::vector<Foreign> foreign = Search(rule, scene, holding, from).run();
    if (foreign.empty()) continue;
    auto finding = finding_of(rule, holding.container, "mixing-over", weight(rule));
    finding.since = foreign.front().at;
    finding.values = {{"measured", shown_word(foreign.front().what)},
                      {"day", shown(scene.day_of(foreign.front().at))}};
    for (const Foreign& one : foreign) finding.entries.push_back(one.seq);
    std::sort(finding.entries.begin(), finding.entries.end());
    const auto same = std::unique(finding.entries.begin(), finding.entries.end());
    finding.entries.erase(same, finding.entries.end());
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> mixing_kinds() {
  return {{"mixing",
           {{"halogens", {"ppm"}, false}, {"flash", {"c"}, false}},
           {weighs(), {"foreign", {}, false}, {"suspected", {}, false}},
           judge_mixing}};
}

}  // namespace benchwarden::rules
