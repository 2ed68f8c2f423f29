#include "access/sign_in_guard.h"

#include <algorithm>
#include <string>

#include "access/query.h"

namespace benchwarden::access {
namespace {

constexpr int kFailuresMax = 1'000'000;

base::Result<std::optional<Failures>> find_failures(sqlite::Database& database,
                                                    const Trier& trier) {
  const auto row = first_row(
      database, "SELECT failures, last_ms FROM sign_in_guard WHERE person = ?1 AND address = ?2",
      {trier.person, trier.address});
  if (!row) return row.error();
  if (!*row) return std::optional<Failures>();
  return std::optional(
      Failures{static_cast<int>(std::min<std::int64_t>((*row)->integer(0), kFailuresMax)),
               base::Instant{(*row)->integer(1)}});
}

base::Status<> write_failures(sqlite::Database& database, const Trier& trier,
                              const Failures& failures) {
  return run(
      database,
      "INSERT INTO sign_in_guard (person, address, failures, last_ms) "
      "VALUES (?1, ?2, ?3, ?4) "
      "ON CONFLICT (person, address) DO UPDATE SET failures = ?3, last_ms = ?4",
      {trier.person, trier.address, static_cast<std::int64_t>(failures.count), failures.last.ms});
}

/// Where tries from an address the person never signed in from are counted.
Trier elsewhere(const Trier& trier) { return {trier.person, ""}; }

}  // namespace

base::Result<std::optional<std::int64_t>> charge_try(sqlite::Database& database, const Trier& trier,
                                                     base::Instant now, const LockOut& rules) {
  const auto known = find_failures(database, trier);
  if (!known) return known.error();
  const bool is_apart = trier.is_apart && trier.person != kNobody;
  const Trier counted = *known || is_apart ? trier : elsewhere(trier);
  const auto found = *known ? known : find_failures(database, counted);
  if (!found) return found.error();
  Failures failures = found->value_or(Failures{});
  if (now < failures.last) {
    // The clock was set back: the wait starts again now instead of lasting until then.
    failures.last = now;
    const auto written = write_failures(database, counted, failures);
    if (!written) return written.error();
  }
  if (trier.person != kNobody) {
    const auto wait_ms = shut_out_ms(rules, failures, now);
    if (wait_ms) return wait_ms;
  }
  const auto written =
      write_failures(database, counted, Failures{std::min(failures.count + 1, kFailuresMax), now});
  if (!written) return written.error();
  return std::optional<std::int64_t>();
}

base::Status<> note_right_pin(sqlite::Database& database, const Trier& trier, base::Instant now,
                              int addresses_kept) {
  const auto known = find_failures(database, trier);
  if (!known) return known.error();
  if (!*known && !trier.is_apart) {
    const auto cleared = run(
        database, "DELETE FROM sign_in_guard WHERE person = ?1 AND address = ''", {trier.person});
    if (!cleared) return cleared.error();
  }
  const auto written = write_failures(database, trier, Failures{0, now});
  if (!written) return written.error();
  return run(database,
             "DELETE FROM sign_in_guard WHERE person = ?1 AND address IN ("
             "SELECT address FROM sign_in_guard WHERE person = ?1 AND address <> '' "
             "ORDER BY last_ms DESC, address LIMIT -1 OFFSET ?2)",
             {trier.person, static_cast<std::int64_t>(addresses_kept)});
}

base::Status<> clear_failures(sqlite::Database& database, std::int64_t person) {
  return run(database, "DELETE FROM sign_in_guard WHERE person = ?1", {person});
}

}  // namespace benchwarden::access
