#include <map>

#include "entries/leaf.h"
#include "forms/thing_class.h"
#include "reports/course_json.h"
#include "rules/courses.h"
#include "workshop/chain.h"
#include "workshop/judgement.h"
#include "workshop/seen_from.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

base::Json thing_json(std::string_view thing_class, std::string_view id,
                      const tallies::Thing& thing) {
  return base::JsonObject{{"class", thing_class},
                          {"id", id},
                          {"retired", thing.retired},
                          {"in_service", thing.in_service},
                          {"attributes", entries::fields_json(thing.attributes)}};
}

base::Error no_such_class(std::string_view thing_class) {
  return {base::ErrorCode::kNotFound, "the register has no class '" + std::string(thing_class) +
                                          "'; accepted: " + forms::list_registered_classes()};
}

base::Error no_such_thing(std::string_view thing_class, std::string_view id) {
  return {base::ErrorCode::kNotFound,
          "there is no " + std::string(thing_class) + " '" + std::string(id) + "' in the register"};
}

base::Result<base::Json> check_json(const Ports& ports, std::uint64_t seq) {
  auto entry = ports.book.entry(seq);
  if (!entry) return entry.error();
  auto json = entry_with_corrections(ports, *entry);
  if (!json) return json;
  const auto chain = chain_of(ports.book, ports.definitions.catalog, *std::move(entry));
  if (!chain) return chain.error();
  base::JsonArray corrections = *json->find("corrections")->array();
  json->object()->pop_back();
  return base::Json(base::JsonObject{{"entry", *std::move(json)},
                                     {"corrections", std::move(corrections)},
                                     {"effective", entries::fields_json(chain->effective.fields)},
                                     {"struck", chain->struck}});
}

/// What follows from the entries about a thing that stand: figures by number of entry, and for a
/// tool or gauge when it leaves its class.
struct Told {
  std::map<std::uint64_t, base::Json> figures;
  base::Json forecast;
};

base::Result<Told> told_of(const Ports& ports, const tallies::State& state,
                           const findings::Subject& thing) {
  const base::Zone zone = zone_of(state);
  const rules::Scene scene(state, ports.clock.now(), zone);
  Told told;
  if (thing.thing_class == "cylinder") {
    const auto book = rules_in_force(ports, state);
    if (!book) return book.error();
    for (const auto& moment : rules::cylinder_course(**book, scene, thing.id)) {
      told.figures.emplace(moment.entry, reports::course_json(moment, zone));
    }
    return told;
  }
  const findings::GaugeCourse course = rules::gauge_course(scene, thing);
  for (const auto& moment : course.moments) {
    told.figures.emplace(moment.entry, reports::course_json(moment));
  }
  told.forecast = reports::forecast_json(course.forecast);
  return told;
}

}  // namespace

base::Result<base::Json> list_things(const Ports& ports, std::string_view thing_class,
                                     const std::optional<Viewpoint>& view) {
  if (!forms::is_registered_class(thing_class)) return no_such_class(thing_class);
  return seen_from(ports, view,
                   [&](const tallies::State& state, base::Instant) -> base::Result<base::Json> {
                     base::JsonArray things;
                     for (const auto& [id, thing] : state.things(thing_class)) {
                       things.push_back(thing_json(thing_class, id, thing));
                     }
                     return base::Json(base::JsonObject{{"things", std::move(things)}});
                   });
}

base::Result<base::Json> show_thing(const Ports& ports, std::string_view thing_class,
                                    std::string_view id, const std::optional<Viewpoint>& view) {
  if (!forms::is_registered_class(thing_class)) return no_such_class(thing_class);
  return seen_from(ports, view,
                   [&](const tallies::State& state, base::Instant) -> base::Result<base::Json> {
                     const tallies::Thing* thing = state.thing(thing_class, id);
                     if (thing == nullptr) return no_such_thing(thing_class, id);
                     return thing_json(thing_class, id, *thing);
                   });
}

base::Result<base::Json> show_history(const Ports& ports, std::string_view thing_class,
                                      std::string_view id) {
  std::vector<std::uint64_t> seqs;
  base::Json subject;
  Told told;
  {
    const auto state = ports.live.still();
    const tallies::Thing* thing = state->thing(thing_class, id);
    if (thing == nullptr) return no_such_thing(thing_class, id);
    subject = thing_json(thing_class, id, *thing);
    for (const tallies::Record& record : state->records(thing_class, id)) {
      seqs.push_back(record.seq);
    }
    auto follows = told_of(ports, *state, {std::string(thing_class), std::string(id)});
    if (!follows) return follows.error();
    told = *std::move(follows);
  }
  base::JsonArray checks;
  for (const std::uint64_t seq : seqs) {
    auto check = check_json(ports, seq);
    if (!check) return check;
    const auto figures = told.figures.find(seq);
    check->object()->emplace_back("figures",
                                  figures == told.figures.end() ? base::Json() : figures->second);
    checks.push_back(*std::move(check));
  }
  base::JsonObject history{{"subject", std::move(subject)}, {"checks", std::move(checks)}};
  if (thing_class != "cylinder") history.emplace_back("forecast", std::move(told.forecast));
  return base::Json(std::move(history));
}

}  // namespace benchwarden::workshop
