#include "rules/contents.h"

#include <algorithm>

#include "rules/limits.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using tallies::EventKind;

/// The last record of an oil test that tells the field, since `from` where that is given.
const tallies::Record* last_telling(const Scene& scene, const findings::Subject& subject,
                                    std::string_view field, std::optional<base::Instant> from) {
  const tallies::RecordList& records = scene.state().records(subject.thing_class, subject.id);
  for (auto record = records.rbegin(); record != records.rend(); ++record) {
    if (from && record->at < *from) break;
    if (record->struck || record->at > scene.now() || record->kind != "oil-test") continue;
    if (entries::find_field(record->fields(), field) != nullptr) return &*record;
  }
  return nullptr;
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
  const auto& events = scene.state().timeline(container).events();
  const auto found = std::find_if(events.rbegin(), events.rend(), [&](const auto& event) {
    return event.kind == EventKind::kEmptied && event.acts && event.at <= scene.now();
  });
  return found == events.rend() ? std::nullopt : std::optional(found->at);
}

const tallies::Record* last_test(const Scene& scene, const Holding& holding,
                                 std::string_view field) {
  const auto* own =
      last_telling(scene, holding.container, field, last_emptied(scene, holding.container.id));
  if (own != nullptr) return own;
  return last_telling(scene, {"stream", holding.stream.id}, field, std::nullopt);
}

bool is_halogenated(const Scene& scene, const Holding& holding, const RuleFigure& most) {
  const tallies::Record* test = last_test(scene, holding, "halogens_ppm");
  if (test == nullptr) return false;
  const entries::Fields fields = test->fields();
  if (tallies::word(fields, "rebuttal") == "rebutted") return false;
  const auto found = tallies::measure(fields, "halogens_ppm", "ppm");
  return found && found->value.thousandths > most.value.thousandths;
}

}  // namespace benchwarden::rules
