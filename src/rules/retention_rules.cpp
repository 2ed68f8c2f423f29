#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "rules/collected.h"
#include "rules/holds.h"
#include "rules/limits.h"
#include "rules/presumed_oil.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Subject;

constexpr base::CivilDate kNoEnd{9999, 12, 31};

void retain(const Rule& rule, std::uint64_t entry, base::CivilDate until, Judgement& said) {
  said.retained.push_back({rule.authority, entry, until});
}

/// Every entry of a collection that was taken, counted from the day the last of it went.
void retain_collections(const Rule& rule, const Scene& scene, bool held, Judgement& said) {
  const std::vector<Collected> all = collected_of(rule, scene);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (i + 1 < all.size() && all[i + 1].subject == all[i].subject) continue;
    const Collected& collected = all[i];
    const base::CivilDate until = scene.later(rule, "limit", scene.day_of(collected.taken.at));
    for (const tallies::CollectionTold& told : collected.stages) {
      retain(rule, told.seq, held ? kNoEnd : until, said);
    }
  }
}

std::string stream_told_of(const Scene& scene, const Subject& subject) {
  if (subject.thing_class == "stream") return subject.id;
  return std::string(tallies::word(scene.attributes(subject), "stream"));
}

/// When a load of each stream was last taken away.
std::map<std::string, base::Instant> last_shipments(const Rule& rule, const Scene& scene) {
  std::map<std::string, base::Instant> last;
  for (const Collected& collected : collected_of(rule, scene)) {
    for (const entries::TakenLoad& load : collected.taken.takes.loads) {
      base::Instant& at = last[stream_told_of(scene, {"container", load.container})];
      at = std::max(at, collected.taken.at);
    }
  }
  return last;
}

/// Entries of some kinds about the things of some classes: counted from the day each tells of, or
/// from the last shipment of the waste it is about. Before there was one they have no end.
void retain_records(const Rule& rule, const Scene& scene, bool held, Judgement& said) {
  const auto kinds = listed_words(rule.setting("kind"));
  const bool by_shipment = rule.setting("counts_from") == "last-shipment";
  const auto shipments =
      by_shipment ? last_shipments(rule, scene) : std::map<std::string, base::Instant>{};
  for (const std::string& thing_class : listed_words(rule.setting("about"))) {
    for (const auto& [id, unused] : scene.state().records().of_class(thing_class)) {
      const Subject subject{thing_class, id};
      if (!scene.applies(rule, subject)) continue;
      const auto shipped = shipments.find(stream_told_of(scene, subject));
      for (const tallies::Record* record : NewestFirst(scene, subject, kinds)) {
        std::optional<base::Instant> start = record->at;
        if (by_shipment) {
          start.reset();
          if (shipped != shipments.end()) start = std::max(record->at, shipped->second);
        }
        const bool endless = held || !start;
        retain(rule, record->seq,
               endless ? kNoEnd : scene.later(rule, "limit", scene.day_of(*start)), said);
      }
    }
  }
}

/// How long entries are kept: through the anniversary of the day they are counted from, which is
/// the last of the month where that month has no such day; without an end while a hold stands.
void judge_retention(const Rule& rule, const Scene& scene, Judgement& said) {
  const bool held = !holds_in_force(scene).empty();
  if (rule.setting("about") == "collection") {
    retain_collections(rule, scene, held, said);
  } else {
    retain_records(rule, scene, held, said);
  }
}

}  // namespace

std::vector<RuleKind> retention_kinds() {
  return {{"retention",
           {{"limit", {"months", "years"}}, halogens()},
           {{"about", {}, true, Word::kSubjects},
            {"kind", {}, false, Word::kKinds},
            loads(),
            without_types(),
            {"counts_from", {"entry", "last-shipment"}}},
           judge_retention}};
}

}  // namespace benchwarden::rules
