#include "access/sessions.h"

#include <algorithm>
#include <cassert>
#include <utility>

#include "access/inspections.h"
#include "access/people.h"
#include "access/query.h"
#include "access/token.h"

namespace benchwarden::access {
namespace {

std::string session_id(std::int64_t number) { return "s" + std::to_string(number); }

base::Error no_session() {
  return base::Error{base::ErrorCode::kForbidden, "no such session, or it has ended"};
}

}  // namespace

Session Sessions::as_session(const CachedSession& cached, base::Instant now) const {
  Session session = cached.session;
  session.expires_at = expires_at(cached);
  session.confirmed_until = base::Instant{cached.confirmed.ms + settings_.confirmed_ms};
  // A clock that was set back confirms nothing.
  session.is_confirmed = cached.confirmed <= now && now < session.confirmed_until;
  return session;
}

Sessions::Sessions(Store& store, const SessionSettings& settings)
    : store_(store), settings_(settings), cache_(settings.cached_max) {}

base::Status<> Sessions::check(const SessionSettings& settings) {
  for (const SessionLife* life : {&settings.technician, &settings.manager, &settings.inspector}) {
    if (life->idle_ms <= 0 || life->absolute_ms <= 0) {
      return base::Error{base::ErrorCode::kInvalid, "sessions: every life must be above 0"};
    }
  }
  if (settings.last_seen_every_ms < 0 || settings.foreign_change_within_ms < 0 ||
      settings.per_person_max < 1) {
    return base::Error{base::ErrorCode::kInvalid,
                       "sessions: wants no interval below 0 and 1 or more per person"};
  }
  return base::Done{};
}

const SessionLife& Sessions::life_of(Role role) const {
  if (role == Role::kManager) return settings_.manager;
  if (role == Role::kInspector) return settings_.inspector;
  return settings_.technician;
}

base::Result<Session> Sessions::find(std::string_view token, base::Instant now) {
  const auto digest = token_digest(token);
  if (!digest) return no_session();
  const bool check_foreign = claim_foreign_check(now);
  if (!check_foreign) {
    const auto cached = cache_.touch(*digest, now);
    if (cached && now.ms - cached->last_written.ms < settings_.last_seen_every_ms) {
      return as_session(*cached, now);
    }
  }
  return store_.with([&](sqlite::Database& database) -> base::Result<Session> {
    if (check_foreign) {
      const auto looked = forget_foreign_changes(database);
      if (!looked) return looked.error();
    }
    return find_slowly(database, *digest, now);
  });
}

base::Result<Session> Sessions::find_slowly(sqlite::Database& database,
                                            const base::Sha256Digest& token, base::Instant now) {
  auto cached = cache_.touch(token, now);
  if (!cached) {
    auto loaded = load(database, token, now);
    if (!loaded) return loaded.error();
    cached = *std::move(loaded);
  }
  if (!cached) return no_session();
  if (now.ms - cached->last_written.ms >= settings_.last_seen_every_ms) {
    const auto written = run(database, "UPDATE session SET last_seen_ms = ?2 WHERE token_hash = ?1",
                             {Blob(base::as_bytes(token)), cached->last_seen.ms});
    // A full disk must not sign people out, nor be asked at every request: the next attempt is due
    // as if this one had worked, and the row merely looks unused for longer than it was.
    static_cast<void>(written);
    cache_.mark_written(token, now);
  }
  return as_session(*cached, now);
}

base::Result<std::optional<CachedSession>> Sessions::load(sqlite::Database& database,
                                                          const base::Sha256Digest& token,
                                                          base::Instant now) {
  const auto row = first_row(database,
                             "SELECT person.number, name, role, ends_ms, idle_ms, last_seen_ms, "
                             "session.number, place, confirmed_ms FROM session JOIN person ON "
                             "person.number = session.person "
                             "WHERE token_hash = ?1 AND active = 1",
                             {Blob(base::as_bytes(token))});
  if (!row) return row.error();
  if (!*row) return std::optional<CachedSession>();
  const sqlite::Statement& columns = **row;
  const auto role = role_from_name(columns.text(2));
  const auto place = place_from_name(columns.text(7));
  if (!role || !place) {
    return base::Error{base::ErrorCode::kDamaged, "access.db: a role or place of no known name"};
  }
  CachedSession found;
  found.person = columns.integer(0);
  found.session = {person_id(found.person),        columns.text(1), *role, {},
                   session_id(columns.integer(6)), *place};
  found.confirmed = base::Instant{columns.integer(8)};
  found.ends = base::Instant{columns.integer(3)};
  found.idle_ms = columns.integer(4);
  found.last_seen = base::Instant{columns.integer(5)};
  found.last_written = found.last_seen;
  if (*role == Role::kInspector) {
    const auto inspection = inspection_now(database, found.person, now);
    if (!inspection) return inspection.error();
    if (!*inspection) return std::optional<CachedSession>();
    found.session.inspection = *inspection;
    found.ends = std::min(found.ends, (*inspection)->until);
  }
  if (has_ended(found, now)) return std::optional<CachedSession>();
  found.last_seen = std::max(found.last_seen, now);
  cache_.put(token, found);
  return std::optional<CachedSession>(std::move(found));
}

base::Result<NewSession> Sessions::begin(sqlite::Database& database, const Person& person,
                                         const From& from, base::Instant now) {
  const auto number = person_number(person.id);
  assert(number);
  const auto room = make_room(database, *number);
  if (!room) return room.error();
  const SessionLife& life = life_of(person.role);
  const std::string token = new_token();
  const auto digest = token_digest(token);
  assert(digest);
  const auto device = from.device ? number_of('d', *from.device) : std::nullopt;
  const auto added = run(
      database,
      "INSERT INTO session (token_hash, person, place, device, began_ms, confirmed_ms, "
      "ends_ms, idle_ms, last_seen_ms) VALUES (?1, ?2, ?3, ?4, ?5, ?5, ?6, ?7, ?5)",
      {Blob(base::as_bytes(*digest)), *number, place_name(from.place),
       device ? Value(*device) : Value(Null{}), now.ms, now.ms + life.absolute_ms, life.idle_ms});
  if (!added) return added.error();
  auto session = load(database, *digest, now);
  // Not into the cache yet: the transaction around this may still fail.
  cache_.forget(*digest);
  if (!session) return session.error();
  if (!*session) return no_session();
  return NewSession{as_session(**session, now), token};
}

base::Result<NewSession> Sessions::renew(sqlite::Database& database, std::string_view token,
                                         base::Instant now) {
  const auto before = token_digest(token);
  const std::string after = new_token();
  const auto digest = token_digest(after);
  assert(before && digest);
  const auto row =
      first_row(database,
                "UPDATE session SET token_hash = ?2, confirmed_ms = ?3, last_seen_ms = ?3 "
                "WHERE token_hash = ?1 RETURNING number",
                {Blob(base::as_bytes(*before)), Blob(base::as_bytes(*digest)), now.ms});
  if (!row) return row.error();
  cache_.forget(*before);
  const auto loaded = load(database, *digest, now);
  if (!loaded) return loaded.error();
  if (!*loaded) return no_session();
  return NewSession{as_session(**loaded, now), after};
}

base::Status<> Sessions::make_room(sqlite::Database& database, std::int64_t person) {
  auto rows = query(database,
                    "DELETE FROM session WHERE token_hash IN (SELECT token_hash FROM session "
                    "WHERE person = ?1 ORDER BY last_seen_ms DESC, token_hash LIMIT -1 OFFSET ?2) "
                    "RETURNING token_hash",
                    {person, static_cast<std::int64_t>(settings_.per_person_max - 1)});
  if (!rows) return rows.error();
  while (true) {
    const auto row = rows->step();
    if (!row) return row.error();
    if (!*row) return base::Done{};
    cache_.forget_person(person);  // those that stay are read again at their next use
  }
}

base::Status<> Sessions::end(std::string_view token) {
  const auto digest = token_digest(token);
  if (!digest) return base::Done{};
  return store_.with([&](sqlite::Database& database) {
    cache_.forget(*digest);
    return run(database, "DELETE FROM session WHERE token_hash = ?1",
               {Blob(base::as_bytes(*digest))});
  });
}

base::Status<> Sessions::end_all_of(sqlite::Database& database, std::int64_t person) {
  cache_.forget_person(person);
  return run(database, "DELETE FROM session WHERE person = ?1", {person});
}

base::Status<> Sessions::end_others_of(sqlite::Database& database, std::int64_t person,
                                       std::string_view token) {
  const base::Sha256Digest kept = base::sha256(token);
  cache_.forget_person(person);
  return run(database, "DELETE FROM session WHERE person = ?1 AND token_hash <> ?2",
             {person, Blob(base::as_bytes(kept))});
}

base::Status<> Sessions::end_all_on(sqlite::Database& database, std::int64_t device) {
  cache_.clear();  // those on other devices are read again at their next use
  return run(database, "DELETE FROM session WHERE device = ?1", {device});
}

base::Status<> Sessions::purge(sqlite::Database& database, base::Instant now) {
  // A cached session may have been used since its row was last written.
  return run(database,
             "DELETE FROM session WHERE ends_ms <= ?1 OR last_seen_ms + idle_ms + ?2 <= ?1 "
             "OR last_seen_ms - idle_ms > ?1",
             {now.ms, settings_.last_seen_every_ms});
}

bool Sessions::claim_foreign_check(base::Instant now) {
  std::int64_t checked = foreign_checked_ms_;
  const bool due = now.ms < checked || now.ms - checked >= settings_.foreign_change_within_ms;
  return due && foreign_checked_ms_.compare_exchange_strong(checked, now.ms);
}

base::Status<> Sessions::forget_foreign_changes(sqlite::Database& database) {
  // Changes only when another connection has committed since.
  const auto row = first_row(database, "PRAGMA data_version");
  if (!row) return row.error();
  assert(row->has_value());
  const std::int64_t version = (*row)->integer(0);
  if (version != data_version_) cache_.clear();
  data_version_ = version;
  return base::Done{};
}

}  // namespace benchwarden::access
