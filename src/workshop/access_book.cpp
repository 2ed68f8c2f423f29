#include "workshop/access_book.h"

#include <algorithm>
#include <string_view>
#include <utility>

#include "workshop/daemon_draft.h"

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kAccessChange = "access-change";
constexpr std::string_view kAccessDay = "access-day";
constexpr std::int64_t kThousandths = 1000;

quantities::Quantity times_of(std::uint64_t number) {
  return {base::Decimal{static_cast<std::int64_t>(number) * kThousandths},
          quantities::find_unit("1")};
}

base::Status<> append_draft(const Ports& ports, const book::Draft& draft) {
  const auto receipt = ports.book.append(draft);
  if (!receipt) return receipt.error();
  return base::Done{};
}

/// The last day before that moment.
base::CivilDate last_day_before(const Ports& ports, base::Instant until) {
  return zone_of(*ports.live.view()).date_of(base::Instant{until.ms - 1});
}

}  // namespace

base::Status<> tell_access_change(const Ports& ports, const AccessChange& change) {
  book::Draft draft = daemon_draft(kAccessChange, ports.definitions.catalog, change.at);
  draft.content.id = change.entry;
  entries::Fields& fields = draft.content.fields;
  const auto add_code = [&](const char* name, const std::optional<std::string>& value) {
    if (value) fields.push_back({name, entries::Code{*value}});
  };
  fields.push_back({"access_act", entries::Code{change.act}});
  add_code("access_scope", change.scope);
  if (change.thing) fields.push_back({"access_thing", entries::Text{*change.thing}});
  if (change.until) fields.push_back({"access_until", last_day_before(ports, *change.until)});
  fields.push_back({"account", entries::Text{change.account}});
  add_code("account_role", change.role);
  fields.push_back({"done_by", entries::Text{change.done_by}});
  return append_draft(ports, draft);
}

base::Status<> tell_access_day(const Ports& ports, base::CivilDate day, const AccessDay& told) {
  book::Draft draft = daemon_draft(kAccessDay, ports.definitions.catalog, ports.clock.now());
  entries::Fields fields;
  std::map<std::string, std::uint64_t> counts = told.counts;
  counts["log_line_count"] = told.lines;
  for (const char* name : {"sign_in_count", "wrong_secret_count", "unknown_person_count",
                           "locked_out_count", "other_refusal_count", "wrong_role_count",
                           "foreign_host_count", "foreign_origin_count", "too_many_count"}) {
    counts.try_emplace(name, 0);
  }
  for (const auto& [name, number] : counts) fields.push_back({name, times_of(number)});
  fields.push_back({"log_day", day});
  fields.push_back({"log_digest", entries::Text{told.digest}});
  std::sort(fields.begin(), fields.end(),
            [](const auto& a, const auto& b) { return a.name < b.name; });
  draft.content.fields = std::move(fields);
  return append_draft(ports, draft);
}

base::Result<bool> is_day_told(const Ports& ports, base::CivilDate day) {
  book::Selection selection;
  selection.kind = kAccessDay;
  selection.from = zone_of(*ports.live.view()).start_of(day);  // it is told when the day is over
  selection.limit = SIZE_MAX;
  const auto found = ports.book.select(selection);
  if (!found) return found.error();
  return std::any_of(found->begin(), found->end(), [&](const entries::Entry& entry) {
    const auto* told = entries::find_field_as<base::CivilDate>(entry.content.fields, "log_day");
    return told != nullptr && *told == day;
  });
}

}  // namespace benchwarden::workshop
