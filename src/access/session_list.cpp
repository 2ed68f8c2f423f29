#include <utility>

#include "access/people.h"
#include "access/query.h"
#include "access/sessions.h"

namespace benchwarden::access {
namespace {

constexpr const char* kListed =
    "SELECT session.number, person, place, session.device, device.name, began_ms, "
    "session.last_seen_ms FROM session JOIN person ON person.number = person "
    "LEFT JOIN device ON device.number = session.device "
    "WHERE active = 1 AND ends_ms > ?1 AND session.last_seen_ms + idle_ms + ?2 > ?1 "
    "AND session.last_seen_ms - idle_ms <= ?1 ";

base::Result<ListedSession> read_listed(const sqlite::Statement& row) {
  const auto place = place_from_name(row.text(2));
  if (!place) return base::Error{base::ErrorCode::kDamaged, "access.db: a place of no known name"};
  ListedSession listed;
  listed.id = "s" + std::to_string(row.integer(0));
  listed.person = person_id(row.integer(1));
  listed.place = *place;
  if (!row.is_null(3)) {
    listed.device = "d" + std::to_string(row.integer(3));
    listed.device_name = row.text(4);
  }
  listed.began_at = base::Instant{row.integer(5)};
  listed.last_seen_at = base::Instant{row.integer(6)};
  return listed;
}

}  // namespace

// A session may have been used since its row was last written: it is listed that much longer.
base::Result<std::vector<ListedSession>> Sessions::list(sqlite::Database& database,
                                                        base::Instant now) {
  auto rows = query(database, std::string(kListed) + "ORDER BY session.number DESC",
                    {now.ms, settings_.last_seen_every_ms});
  if (!rows) return rows.error();
  std::vector<ListedSession> sessions;
  while (true) {
    const auto row = rows->step();
    if (!row) return row.error();
    if (!*row) return sessions;
    auto listed = read_listed(*rows);
    if (!listed) return listed.error();
    sessions.push_back(*std::move(listed));
  }
}

base::Result<ListedSession> Sessions::find_listed(sqlite::Database& database, std::string_view id,
                                                  base::Instant now) {
  const auto row =
      first_row(database, std::string(kListed) + "AND session.number = ?3",
                {now.ms, settings_.last_seen_every_ms, number_of('s', id).value_or(0)});
  if (!row) return row.error();
  if (!*row) return base::Error{base::ErrorCode::kNotFound, "no session has that id"};
  return read_listed(**row);
}

base::Status<> Sessions::end_listed(sqlite::Database& database, const ListedSession& listed) {
  cache_.forget_person(*person_number(listed.person));
  return run(database, "DELETE FROM session WHERE number = ?1", {*number_of('s', listed.id)});
}

}  // namespace benchwarden::access
