#include "access/calendar_feed.h"

#include "access/accounts.h"
#include "access/query.h"
#include "access/token.h"

namespace benchwarden::access {

using sqlite::Database;

namespace {

base::Result<std::optional<base::Instant>> find_made_at(Database& database, std::int64_t person) {
  const auto row =
      first_row(database, "SELECT made_ms FROM calendar_feed WHERE person = ?1", {person});
  if (!row) return row.error();
  if (!*row) return std::optional<base::Instant>();
  return std::optional(base::Instant{(*row)->integer(0)});
}

}  // namespace

base::Status<> drop_calendar_feed(Database& database, std::int64_t person) {
  return run(database, "DELETE FROM calendar_feed WHERE person = ?1", {person});
}

base::Result<NewCalendarFeed> Accounts::make_calendar_feed(std::string_view person) {
  const NewCalendarFeed made{new_token(), clock_.now()};
  const base::Sha256Digest hash = base::sha256(made.secret);
  return store_->change([&](Database& db) -> base::Result<NewCalendarFeed> {
    const auto found = find_person(db, person);
    if (!found) return found.error();
    if (!found->active) return base::Error{base::ErrorCode::kNotFound, "that person is not active"};
    const auto kept = run(db,
                          "INSERT OR REPLACE INTO calendar_feed (person, secret_hash, made_ms) "
                          "VALUES (?1, ?2, ?3)",
                          {*person_number(person), Blob(base::as_bytes(hash)), made.made_at.ms});
    if (!kept) return kept.error();
    const auto noted = note(db, person, person, "calendar-feed-made");
    if (!noted) return noted.error();
    return made;
  });
}

base::Status<> Accounts::end_calendar_feed(std::string_view person) {
  const std::int64_t number = person_number(person).value_or(0);
  return store_->change([&](Database& db) -> base::Status<> {
    const auto made_at = find_made_at(db, number);
    if (!made_at) return made_at.error();
    if (!*made_at) return base::Done{};
    const auto dropped = drop_calendar_feed(db, number);
    if (!dropped) return dropped.error();
    return note(db, person, person, "calendar-feed-ended");
  });
}

base::Result<std::optional<base::Instant>> Accounts::calendar_feed_made_at(
    std::string_view person) const {
  const std::int64_t number = person_number(person).value_or(0);
  return store_->with([&](Database& db) { return find_made_at(db, number); });
}

// What is looked up is the hash: how long that takes tells nothing of how near a guess came.
base::Status<> Accounts::check_calendar_secret(std::string_view secret) const {
  const base::Sha256Digest hash = base::sha256(secret);
  return store_->with([&](Database& db) -> base::Status<> {
    const auto row = first_row(db, "SELECT 1 FROM calendar_feed WHERE secret_hash = ?1",
                               {Blob(base::as_bytes(hash))});
    if (!row) return row.error();
    if (!*row) return base::Error{base::ErrorCode::kNotFound, "there is no such calendar"};
    return base::Done{};
  });
}

}  // namespace benchwarden::access
