#include "workshop/month_views.h"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

#include "workshop/month_close.h"

namespace benchwarden::workshop {
namespace {

using base::CivilMonth;
using base::Json;
using base::JsonArray;
using base::JsonObject;

constexpr std::size_t kMonthsMax = 120;

CivilMonth month_before(CivilMonth month) {
  return base::month_of(base::add_days(base::first_day(month), -1));
}

/// The numbers of the entries of a month that came into the book, or were corrected there, after
/// it had this size.
std::size_t entries_since(const tallies::State& state, CivilMonth month, std::uint64_t size) {
  const base::Zone zone = zone_of(state);
  const base::Instant from = zone.start_of(month);
  const base::Instant until = zone.start_of(base::next_month(month));
  std::set<std::uint64_t> seqs;
  const auto look = [&](base::Instant at, std::uint64_t seq, std::uint64_t by) {
    if (at >= from && at < until && by > size) seqs.insert(seq);
  };
  for (const auto& [id, thing] : state.things("container")) {
    const tallies::Timeline& timeline = state.timeline(id);
    for (std::size_t i = timeline.count_before(from); i < timeline.count_before(until); ++i) {
      look(timeline.events()[i].at, timeline.events()[i].seq, timeline.events()[i].seq);
    }
  }
  for (const auto& [thing_class, by_id] : state.records().all()) {
    for (const auto& [id, records] : by_id) {
      const auto first = std::partition_point(records.begin(), records.end(),
                                              [&](const auto& one) { return one.at < from; });
      for (auto one = first; one != records.end() && one->at < until; ++one) {
        look(one->at, one->seq, one->seq);
      }
    }
  }
  for (const tallies::Mark& mark : state.corrected()) {
    look(mark.occurred_at, mark.seq, mark.corrected_by);
  }
  return seqs.size();
}

/// What of the month's figures is other than what was signed; null while it is open.
base::Result<Json> differences_json(const Ports& ports, const tallies::State& state,
                                    const reports::WasteMonthFigures& sums) {
  const auto closing = month_closing(ports, state, sums.month);
  if (!closing) return closing.error();
  if (!*closing) return Json(nullptr);
  return reports::differences_json(reports::differences_of((*closing)->streams, sums.streams));
}

base::Result<Json> closed_json(const Ports& ports, const tallies::State& state, CivilMonth month) {
  const auto closing = closing_in(state, month);
  if (!closing) return Json(nullptr);
  const auto entry = ports.book.entry(closing->seq);
  if (!entry) return entry.error();
  const auto statement = statement_of(ports, *entry, state.size());
  if (!statement) return statement.error();
  const auto text = [](const std::string& words) { return words.empty() ? Json(nullptr) : words; };
  const std::string& person = entry->signature.person;
  return Json(
      JsonObject{{"entry", closing->seq},
                 {"id", base::format_uuid(entry->content.id)},
                 {"person", person},
                 {"person_name", ports.names.display_name(person)},
                 {"recorded_at", base::format_rfc3339(zone_of(state).local(entry->recorded_at))},
                 {"book_size", closing->book_size},
                 {"figures_digest", text(closing->digest)},
                 {"statement", text(*statement)},
                 {"entries_since", entries_since(state, month, closing->book_size)}});
}

/// From the first in which something happened, newest first.
std::vector<CivilMonth> months_until(const tallies::State& state, CivilMonth last) {
  const CivilMonth first = first_month(state).value_or(last);
  std::vector<CivilMonth> months;
  for (CivilMonth month = last; months.size() < kMonthsMax && month >= first;
       month = month_before(month)) {
    months.push_back(month);
  }
  return months;
}

}  // namespace

base::Result<Json> show_months(const Ports& ports) {
  const auto still = ports.live.still();
  const tallies::State& state = *still;
  const base::CivilDate today = zone_of(state).date_of(ports.clock.now());
  const CivilMonth running = base::month_of(today);
  JsonArray months;
  for (const CivilMonth month : months_until(state, running)) {
    const auto closed = closed_json(ports, state, month);
    if (!closed) return closed.error();
    const reports::WasteMonthFigures sums = sums_of(state, month);
    months.push_back(JsonObject{{"month", base::format_month(month)},
                                {"over", month < running},
                                {"hazardous_total", reports::totals_json(sums.hazardous)},
                                {"other_total", reports::totals_json(sums.other)},
                                {"closed", *closed}});
  }
  return Json(JsonObject{{"today", base::format_date(today)},
                         {"book_size", state.size()},
                         {"months", std::move(months)}});
}

base::Result<Json> show_month(const Ports& ports, CivilMonth month) {
  const auto still = ports.live.still();
  const tallies::State& state = *still;
  const CivilMonth running = zone_of(state).month_of(ports.clock.now());
  if (month > running) {
    return base::Error{base::ErrorCode::kNotFound, "month '" + base::format_month(month) +
                                                       "' has not begun; accepted: " +
                                                       base::format_month(running) + " or earlier"};
  }
  const auto closed = closed_json(ports, state, month);
  if (!closed) return closed.error();
  const reports::WasteMonthFigures sums = sums_of(state, month);
  const auto differences = differences_json(ports, state, sums);
  if (!differences) return differences.error();
  JsonObject json{{"book_size", state.size()},
                  {"figures_digest", reports::month_digest(sums)},
                  {"over", month < running},
                  {"closed", *closed},
                  {"differences", *differences}};
  const Json totals = reports::month_totals_json(sums);
  for (const base::JsonMember& member : *totals.object()) json.push_back(member);
  return Json(std::move(json));
}

std::vector<CivilMonth> months_over(const Ports& ports) {
  const auto state = ports.live.view();
  if (!first_month(*state)) return {};
  const base::CivilDate yesterday = base::add_days(zone_of(*state).date_of(ports.clock.now()), -1);
  return months_until(*state, month_before(base::month_of(yesterday)));
}

}  // namespace benchwarden::workshop
