#include "rules/collected.h"

#include <algorithm>
#include <set>
#include <utility>

#include "rules/presumed_oil.h"
#include "rules/told.h"
#include "tallies/levels.h"

namespace benchwarden::rules {
namespace {

/// Whether this stage took something away by now that the rule is about.
bool is_meant(const Rule& rule, const Scene& scene, const tallies::CollectionTold& told) {
  if (told.takes.stage != entries::CollectionStage::kTaken || told.at > scene.now()) return false;
  const auto& all = told.takes.loads;
  return std::any_of(all.begin(), all.end(), [&](const auto& load) {
    return is_load_meant(rule, scene, load.container, told.at);
  });
}

}  // namespace

SettingSpec loads() { return {"loads", {"any", "hazardous", "not-hazardous"}}; }

SettingSpec without_types() { return {"without_types", {}, false, Word::kWasteTypes}; }

bool is_load_meant(const Rule& rule, const Scene& scene, const std::string& container,
                   base::Instant taken) {
  const auto without = listed_words(rule.setting("without_types"));
  const auto type = tallies::word(scene.stream_of({"container", container}), "waste_type");
  const bool left_out = std::find(without.begin(), without.end(), type) != without.end();
  if (left_out && !takes_oil_load(rule, scene, container, taken)) return false;
  if (rule.setting("loads") == "any") return true;
  const auto stream = tallies::stream_of_container(scene.state(), container);
  return (!stream || stream->hazardous) == (rule.setting("loads") == "hazardous");
}

std::vector<Collected> collected_of(const Rule& rule, const Scene& scene) {
  std::vector<Collected> found;
  for (const auto& [id, stages] : scene.state().collections()) {
    const findings::Subject subject{"collection", id};
    if (!scene.applies(rule, subject)) continue;
    for (const tallies::CollectionTold& told : stages) {
      if (is_meant(rule, scene, told)) found.push_back({subject, told, stages});
    }
  }
  return found;
}

std::vector<Collected> documents_of(const Rule& rule, const Scene& scene) {
  std::vector<Collected> all = collected_of(rule, scene);
  std::set<std::pair<findings::Subject, std::string>> known;
  std::erase_if(all, [&](const Collected& one) {
    return !known.emplace(one.subject, one.taken.takes.document_number).second;
  });
  return all;
}

std::optional<std::int64_t> mass_taken(const tallies::State& state, const std::string& container,
                                       const tallies::CollectionTold& taken) {
  const auto stream = tallies::stream_of_container(state, container);
  const auto& events = state.timeline(container).events();
  auto event = std::partition_point(events.begin(), events.end(),
                                    [&](const auto& one) { return one.at < taken.at; });
  std::int64_t amount = 0;
  bool found = false;
  for (; event != events.end() && event->at == taken.at; ++event) {
    if (event->seq != taken.seq || event->kind != tallies::EventKind::kTaken) continue;
    amount += event->amount;
    found = true;
  }
  if (!found || !stream) return std::nullopt;
  const auto mass = tallies::as_mass(*stream, amount);
  return mass ? std::optional(mass->count()) : std::nullopt;
}

}  // namespace benchwarden::rules
