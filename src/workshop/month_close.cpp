#include "workshop/month_close.h"

#include <algorithm>
#include <utility>

#include "forms/month_rules.h"
#include "workshop/chain.h"
#include "workshop/fold.h"

namespace benchwarden::workshop {
namespace {

/// No closing stands on what came after it, whatever it says.
std::uint64_t size_in(const entries::Fields& fields, std::uint64_t entries_before) {
  const auto* size = entries::find_field_as<quantities::Quantity>(fields, "book_size");
  if (size == nullptr) return entries_before;
  constexpr std::int64_t kThousandths = 1000;
  return std::min(static_cast<std::uint64_t>(size->value.thousandths / kThousandths),
                  entries_before);
}

}  // namespace

std::optional<Closing> closing_in(const tallies::State& state, base::CivilMonth month,
                                  std::uint64_t without) {
  const std::string name = base::format_month(month);
  std::optional<Closing> found;
  for (const tallies::Record& record : state.records("", forms::kMonthClose)) {
    if (record.struck || record.seq == without) continue;
    const entries::Fields fields = record.fields();
    if (tallies::word(fields, "month") != name) continue;
    found = Closing{record.seq, size_in(fields, record.seq - 1),
                    std::string(tallies::word(fields, "figures_digest"))};
  }
  return found;
}

std::optional<base::CivilMonth> first_month(const tallies::State& state) {
  std::optional<base::Instant> first;
  for (const auto& [id, thing] : state.things("container")) {
    const auto& events = state.timeline(id).events();
    if (!events.empty()) first = std::min(first.value_or(events.front().at), events.front().at);
  }
  if (!first) return std::nullopt;
  return zone_of(state).month_of(*first);
}

base::CivilMonth begins_in(const Ports& ports, const tallies::State& state) {
  const auto entry = ports.book.entry(1);
  const base::CivilMonth begun =
      zone_of(state).month_of(entry ? entry->recorded_at : ports.clock.now());
  return std::min(begun, first_month(state).value_or(begun));
}

base::Result<tallies::State> state_at(const Ports& ports, std::uint64_t book_size) {
  Viewpoint then;
  then.known_at = book_size;
  return refold(ports.book, ports.definitions.catalog, then);
}

reports::WasteMonthFigures sums_of(const tallies::State& state, base::CivilMonth month) {
  return reports::make_month_sums(state, zone_of(state), month, base::Instant{INT64_MAX - 1});
}

base::Result<bool> holds_as_signed(const Ports& ports, const tallies::State& state,
                                   base::CivilMonth month, const Closing& closing) {
  const std::string now = reports::month_digest(sums_of(state, month));
  if (!closing.digest.empty()) return closing.digest == now;
  const auto then = state_at(ports, closing.book_size);
  if (!then) return then.error();
  return reports::month_digest(sums_of(*then, month)) == now;
}

base::Result<std::string> statement_of(const Ports& ports, const entries::Entry& closing,
                                       std::uint64_t size) {
  const auto chain = chain_of(ports.book, ports.definitions.catalog, closing, size + 1);
  if (!chain) return chain.error();
  return std::string(tallies::word(chain->effective.fields, "statement"));
}

base::Result<std::optional<reports::MonthClosing>> month_closing(const Ports& ports,
                                                                 const tallies::State& state,
                                                                 base::CivilMonth month) {
  const auto closing = closing_in(state, month);
  if (!closing) return std::optional<reports::MonthClosing>();
  auto entry = ports.book.entry(closing->seq);
  if (!entry) return entry.error();
  auto statement = statement_of(ports, *entry, state.size());
  if (!statement) return statement.error();
  reports::MonthClosing told;
  told.entry = *std::move(entry);
  told.book_size = closing->book_size;
  told.digest = closing->digest;
  told.statement = *std::move(statement);
  reports::WasteMonthFigures signed_figures = sums_of(state, month);
  if (closing->digest != reports::month_digest(signed_figures)) {
    const auto state_then = state_at(ports, closing->book_size);
    if (!state_then) return state_then.error();
    signed_figures = sums_of(*state_then, month);
  }
  if (!closing->digest.empty()) {
    told.digest_holds = closing->digest == reports::month_digest(signed_figures);
  }
  told.streams = std::move(signed_figures.streams);
  return std::optional(std::move(told));
}

}  // namespace benchwarden::workshop
