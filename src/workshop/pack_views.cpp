#include "workshop/pack_views.h"

#include <algorithm>
#include <utility>

#include "workshop/judgement.h"
#include "workshop/rule_adoption.h"

namespace benchwarden::workshop {

using base::Json;
using base::JsonArray;
using base::JsonObject;

base::Result<Json> show_packs(const Ports& ports) {
  const PackShelf::Digests in_force = packs_in_force(ports.packs, *ports.live.view());
  JsonArray built_in;
  for (const rules::RulePack& pack : ports.definitions.packs) {
    const bool judges = std::find(in_force.begin(), in_force.end(), pack.digest) != in_force.end();
    built_in.push_back(JsonObject{{"pack", pack.id},
                                  {"title", pack.title},
                                  {"edition", pack.edition},
                                  {"remarks", pack.remarks},
                                  {"digest", pack.digest},
                                  {"in_force", judges},
                                  {"toml", pack.text}});
  }
  auto local = show_local_pack(ports);
  if (!local) return local.error();
  return Json(JsonObject{{"built_in", std::move(built_in)}, {"local", *std::move(local)}});
}

base::Result<Json> show_local_pack(const Ports& ports) {
  const auto adopted = local_pack(*ports.live.view());
  if (!adopted) return Json(nullptr);
  const auto pack = ports.packs.pack(adopted->digest);
  if (!pack) return pack.error();
  return Json(JsonObject{{"pack", adopted->pack},
                         {"edition", adopted->edition},
                         {"digest", adopted->digest},
                         {"entry", adopted->seq},
                         {"toml", (*pack)->text}});
}

Json show_checked_pack(const Ports& ports, const std::string& text) {
  const auto pack = read_local_pack(ports.definitions, text, "local pack");
  if (pack) {
    const auto count = static_cast<std::int64_t>(pack->rules.size());
    return JsonObject{{"pack", JsonObject{{"pack", pack->id},
                                          {"title", pack->title},
                                          {"edition", pack->edition},
                                          {"rules", count}}},
                      {"faults", JsonArray{}}};
  }
  JsonArray faults;
  for (const base::FileFault& fault : pack.error()) {
    faults.push_back(JsonObject{{"line", fault.line > 0 ? Json(fault.line) : Json(nullptr)},
                                {"detail", fault.reason}});
  }
  return JsonObject{{"pack", nullptr}, {"faults", std::move(faults)}};
}

}  // namespace benchwarden::workshop
