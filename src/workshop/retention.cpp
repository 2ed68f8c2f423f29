#include "workshop/retention.h"

#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "rules/holds.h"
#include "tallies/facts.h"
#include "workshop/judgement.h"
#include "workshop/seen_from.h"

namespace benchwarden::workshop {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

/// What rules give where there is no end.
constexpr base::CivilDate kNoEnd{9999, 12, 31};

JsonArray holds_json(const rules::Scene& scene) {
  JsonArray holds;
  for (const tallies::Record* record : rules::holds_in_force(scene)) {
    const entries::Fields fields = record->fields();
    holds.push_back(JsonObject{{"entry", std::uint64_t{record->seq}},
                               {"authority", tallies::word(fields, "authority")},
                               {"scope", tallies::word(fields, "scope")}});
  }
  return holds;
}

Json entry_json(const findings::Retained& one) {
  const bool open = one.until == kNoEnd;
  return JsonObject{{"entry", one.entry},
                    {"until", open ? Json(nullptr) : Json(base::format_date(one.until))}};
}

/// Each rule once, with the entries it keeps.
JsonArray kept_json(const std::vector<findings::Retained>& retained) {
  JsonArray kept;
  for (std::size_t at = 0; at < retained.size();) {
    const findings::Authority& authority = retained[at].authority;
    JsonArray entries;
    for (; at < retained.size() && retained[at].authority.rule == authority.rule; ++at) {
      entries.push_back(entry_json(retained[at]));
    }
    JsonObject json = authority_json(authority);
    json.emplace_back("entries", std::move(entries));
    kept.emplace_back(std::move(json));
  }
  return kept;
}

template <class Key>
std::optional<base::CivilDate> value_in(const std::map<Key, base::CivilDate>& dates,
                                        const Key& key) {
  const auto found = dates.find(key);
  return found == dates.end() ? std::nullopt : std::optional(found->second);
}

}  // namespace

base::Result<Json> show_retention(const Ports& ports, const std::optional<Viewpoint>& view) {
  return seen_from(
      ports, view, [&](const tallies::State& state, base::Instant as_of) -> base::Result<Json> {
        const base::Instant moment = std::min(as_of, ports.clock.now());
        const base::Zone zone = zone_of(state);
        const auto said = judge(ports, state, moment);
        if (!said) return said.error();
        return Json(JsonObject{{"as_of", base::format_rfc3339(zone.local(moment))},
                               {"holds", holds_json(rules::Scene(state, moment, zone))},
                               {"kept", kept_json(said->retained)}});
      });
}

base::Status<> check_may_forget(const Ports& ports, std::string_view person) {
  const auto state = ports.live.still();
  const base::Instant now = ports.clock.now();
  const auto said = judge(ports, *state, now);
  if (!said) return said.error();
  const base::Zone zone = zone_of(*state);
  if (!rules::holds_in_force(rules::Scene(*state, now, zone)).empty()) {
    return base::Error{base::ErrorCode::kConflict, "a hold stands: nothing may go"};
  }
  std::map<std::uint64_t, base::CivilDate> kept;
  for (const findings::Retained& one : said->retained) {
    if (one.until >= zone.date_of(now)) kept[one.entry] = std::max(kept[one.entry], one.until);
  }
  // A correction is kept as long as what it corrects.
  std::map<base::Uuid, base::CivilDate> kept_by_id;
  return ports.book.each(1, [&](const entries::Entry& entry) -> base::Status<> {
    const entries::Content& content = entry.content;
    std::optional<base::CivilDate> until = value_in(kept, entry.seq);
    if (content.corrects) until = std::max(until, value_in(kept_by_id, *content.corrects));
    if (!until) return base::Done{};
    kept_by_id[content.id] = *until;
    if (entry.signature.person != person) return base::Done{};
    return base::Error{
        base::ErrorCode::kConflict,
        std::string(person) + " signed entry " + std::to_string(entry.seq) +
            ", which is to be kept " +
            (*until == kNoEnd ? "without an end yet" : "until " + base::format_date(*until))};
  });
}

}  // namespace benchwarden::workshop
