#include "access/access_log.h"

#include <utility>

#include "access/accounts.h"
#include "access/query.h"
#include "base/sha256.h"

namespace benchwarden::access {

using sqlite::Database;

namespace {

base::Result<AccessCounts> counts_between(Database& database, base::Instant from,
                                          base::Instant until) {
  auto rows =
      query(database,
            "SELECT what, sum(times) FROM access_count WHERE slot_ms >= ?1 AND slot_ms < ?2 "
            "GROUP BY what",
            {from.ms, until.ms});
  if (!rows) return rows.error();
  AccessCounts counts;
  while (true) {
    const auto row = rows->step();
    if (!row) return row.error();
    if (!*row) return counts;
    counts[rows->text(0)] = static_cast<std::uint64_t>(rows->integer(1));
  }
}

base::Status<> add_lines(Database& database, base::Instant from, base::Instant until,
                         AccessLog& log) {
  auto rows = query(database,
                    "SELECT at_ms, what, person, address FROM ("
                    "SELECT at_ms, reason AS what, coalesce(person, 0) AS person, address, "
                    "number, 0 AS list FROM refusal UNION ALL "
                    "SELECT at_ms, 'sign-in', person, place, number, 1 FROM sign_in) "
                    "WHERE at_ms >= ?1 AND at_ms < ?2 ORDER BY list, number",
                    {from.ms, until.ms});
  if (!rows) return rows.error();
  std::string text;
  while (true) {
    const auto row = rows->step();
    if (!row) return row.error();
    if (!*row) break;
    text += std::to_string(rows->integer(0)) + " " + rows->text(1) + " p" +
            std::to_string(rows->integer(2)) + " " + rows->text(3) + "\n";
    ++log.lines;
  }
  log.digest = base::to_hex(base::sha256(text));
  return base::Done{};
}

base::Result<UntoldChange> read_untold(const sqlite::Statement& row) {
  const auto entry = base::parse_uuid(row.text(1));
  if (!entry) return base::Error{base::ErrorCode::kDamaged, "access.db: a change without its id"};
  const auto text = [&](int column) {
    return row.is_null(column) ? std::nullopt : std::optional(row.text(column));
  };
  UntoldChange change{
      row.integer(0), *entry, base::Instant{row.integer(2)}, row.text(3), person_id(row.integer(4)),
      row.text(5)};
  change.thing = text(6);
  change.role = text(7);
  change.scope = text(8);
  if (!row.is_null(9)) change.until = base::Instant{row.integer(9)};
  return change;
}

constexpr const char* kUntold =
    "SELECT change.number, entry_id, at_ms, done_by, change.person, what, thing, "
    "CASE what WHEN 'person-added' THEN role END, "
    "coalesce(script_token.scope, inspection.scope), coalesce(ends_ms, until_ms) "
    "FROM change JOIN person ON person.number = change.person "
    "LEFT JOIN script_token ON what = 'token-made' AND thing = 't' || script_token.number "
    "LEFT JOIN inspection ON what = 'inspection-given' AND thing = 'i' || inspection.number "
    "WHERE told = 0 ORDER BY change.number";

}  // namespace

base::Instant quarter_of(base::Instant at) {
  constexpr std::int64_t kQuarterMs = 900'000;
  return {at.ms - at.ms % kQuarterMs};
}

base::Status<> count_access(Database& database, base::Instant at, std::string_view what,
                            std::uint64_t times) {
  return run(database,
             "INSERT INTO access_count (slot_ms, what, times) VALUES (?1, ?2, ?3) "
             "ON CONFLICT (slot_ms, what) DO UPDATE SET times = times + ?3",
             {quarter_of(at).ms, what, static_cast<std::int64_t>(times)});
}

base::Result<std::vector<UntoldChange>> Accounts::untold_changes() const {
  return store_->with([](Database& db) -> base::Result<std::vector<UntoldChange>> {
    auto rows = query(db, kUntold);
    if (!rows) return rows.error();
    std::vector<UntoldChange> changes;
    while (true) {
      const auto row = rows->step();
      if (!row) return row.error();
      if (!*row) return changes;
      auto change = read_untold(*rows);
      if (!change) return change.error();
      changes.push_back(*std::move(change));
    }
  });
}

base::Status<> Accounts::mark_told(std::int64_t number) {
  return store_->with([&](Database& db) {
    return run(db, "UPDATE change SET told = 1 WHERE number = ?1", {number});
  });
}

base::Status<> Accounts::note_refused_requests(const std::vector<RefusedRequest>& lines,
                                               const std::vector<RefusedCount>& counts) {
  return store_->change([&](Database& db) -> base::Status<> {
    for (const RefusedRequest& line : lines) {
      const auto noted =
          note_refusal(db, {line.at, person_number(line.person), line.reason, line.address},
                       settings_.refusals_kept);
      if (!noted) return noted.error();
    }
    for (const RefusedCount& count : counts) {
      const auto counted = count_access(db, count.at, count.reason, count.times);
      if (!counted) return counted.error();
    }
    return base::Done{};
  });
}

base::Result<AccessLog> Accounts::access_log(base::Instant from, base::Instant until) const {
  return store_->with([&](Database& db) -> base::Result<AccessLog> {
    auto counts = counts_between(db, from, until);
    if (!counts) return counts.error();
    AccessLog log;
    log.counts = *std::move(counts);
    const auto added = add_lines(db, from, until, log);
    if (!added) return added.error();
    return log;
  });
}

base::Result<std::optional<base::Instant>> Accounts::first_counted() const {
  return store_->with([](Database& db) -> base::Result<std::optional<base::Instant>> {
    const auto row = first_row(db, "SELECT min(slot_ms) FROM access_count");
    if (!row) return row.error();
    if (!*row || (*row)->is_null(0)) return std::optional<base::Instant>();
    return std::optional(base::Instant{(*row)->integer(0)});
  });
}

base::Status<> Accounts::forget_counts(base::Instant before) {
  return store_->with([&](Database& db) {
    return run(db, "DELETE FROM access_count WHERE slot_ms < ?1", {before.ms});
  });
}

}  // namespace benchwarden::access
