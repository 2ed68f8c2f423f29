#include "access/sign_in_guard.h"

#include <algorithm>

#include "access/query.h"

namespace benchwarden::access {
namespace {

constexpr int kFailuresMax = 1'000'000;

base::Result<Failures> read_failures(sqlite::Database& database, std::int64_t person) {
  const auto row = first_row(
      database, "SELECT failures, last_failed_ms FROM sign_in_guard WHERE person = ?1", {person});
  if (!row) return row.error();
  if (!*row) return Failures{};
  return Failures{static_cast<int>(std::min<std::int64_t>((*row)->integer(0), kFailuresMax)),
                  base::Instant{(*row)->integer(1)}};
}

base::Status<> write_failures(sqlite::Database& database, std::int64_t person,
                              const Failures& failures) {
  return run(database,
             "INSERT INTO sign_in_guard (person, failures, last_failed_ms) VALUES (?1, ?2, ?3) "
             "ON CONFLICT (person) DO UPDATE SET failures = ?2, last_failed_ms = ?3",
             {person, static_cast<std::int64_t>(failures.count), failures.last.ms});
}

}  // namespace

base::Result<std::optional<ShutOut>> charge_try(sqlite::Database& database, std::int64_t person,
                                                base::Instant now, const LockOut& rules) {
  auto failures = read_failures(database, person);
  if (!failures) return failures.error();
  if (now < failures->last) {
    // The clock was set back: the wait starts again now instead of lasting until then.
    failures->last = now;
    const auto written = write_failures(database, person, *failures);
    if (!written) return written.error();
  }
  if (person != kNobody) {
    const auto out = shut_out(rules, *failures, now);
    if (out) return std::optional<ShutOut>(out);
  }
  const auto written =
      write_failures(database, person, Failures{std::min(failures->count + 1, kFailuresMax), now});
  if (!written) return written.error();
  return std::optional<ShutOut>();
}

base::Status<> clear_failures(sqlite::Database& database, std::int64_t person) {
  return run(database, "DELETE FROM sign_in_guard WHERE person = ?1", {person});
}

}  // namespace benchwarden::access
