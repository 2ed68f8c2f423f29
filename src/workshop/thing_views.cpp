#include "entries/leaf.h"
#include "forms/thing_class.h"
#include "workshop/chain.h"
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

}  // namespace

base::Result<base::Json> list_things(const Ports& ports, std::string_view thing_class) {
  if (!forms::is_registered_class(thing_class)) return no_such_class(thing_class);
  base::JsonArray things;
  const auto state = ports.live.view();
  for (const auto& [id, thing] : state->things(thing_class)) {
    things.push_back(thing_json(thing_class, id, thing));
  }
  return base::Json(base::JsonObject{{"things", std::move(things)}});
}

base::Result<base::Json> show_thing(const Ports& ports, std::string_view thing_class,
                                    std::string_view id) {
  if (!forms::is_registered_class(thing_class)) return no_such_class(thing_class);
  const auto state = ports.live.view();
  const tallies::Thing* thing = state->thing(thing_class, id);
  if (thing == nullptr) return no_such_thing(thing_class, id);
  return thing_json(thing_class, id, *thing);
}

base::Result<base::Json> show_history(const Ports& ports, std::string_view thing_class,
                                      std::string_view id) {
  std::vector<std::uint64_t> seqs;
  base::Json subject;
  {
    const auto state = ports.live.view();
    const tallies::Thing* thing = state->thing(thing_class, id);
    if (thing == nullptr) return no_such_thing(thing_class, id);
    subject = thing_json(thing_class, id, *thing);
    for (const tallies::Record& record : state->records(thing_class, id)) {
      seqs.push_back(record.seq);
    }
  }
  base::JsonArray checks;
  for (const std::uint64_t seq : seqs) {
    auto check = check_json(ports, seq);
    if (!check) return check;
    checks.push_back(*std::move(check));
  }
  return base::Json(
      base::JsonObject{{"subject", std::move(subject)}, {"checks", std::move(checks)}});
}

}  // namespace benchwarden::workshop
