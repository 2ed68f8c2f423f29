#include "access/accounts.h"

#include <algorithm>
#include <cassert>
#include <utility>

#include "access/calendar_feed.h"
#include "access/devices.h"
#include "access/journal.h"
#include "access/one_time_code.h"
#include "access/pin_rules.h"
#include "access/query.h"
#include "access/sign_in_guard.h"
#include "base/text.h"

namespace benchwarden::access {

using sqlite::Database;

Accounts::Accounts(std::unique_ptr<Store> store, const Pepper& pepper, const base::Clock& clock,
                   const Settings& settings)
    : settings_(settings),
      clock_(clock),
      pepper_(pepper),
      store_(std::move(store)),
      sessions_(std::make_unique<Sessions>(*store_, settings.sessions)),
      hasher_(std::make_unique<PinHasher>(pepper, settings.hash_cost)),
      line_(settings.hash_cost.per_address_max) {}

base::Status<> Accounts::begin() {
  stand_in_hash_ = hasher_->stand_in();
  return store_->change([&](Database& db) { return sessions_->purge(db, clock_.now()); });
}

base::Result<std::vector<Person>> Accounts::people() const { return store_->with(all_people); }

base::Result<Person> Accounts::person(std::string_view id) const {
  return store_->with([&](Database& db) { return find_person(db, id); });
}

base::Result<std::string> Accounts::hash_pin(const std::string& pin) {
  const auto slot = hasher_->take_slot();
  if (!slot) {
    return base::Error{base::ErrorCode::kUnavailable, "too many PINs are being hashed just now"};
  }
  return hasher_->hash(*slot, pin);
}

base::Status<> Accounts::note(Database& database, std::string_view by, std::string_view id,
                              std::string_view what, const About& about) {
  if (!base::is_slug(by)) {
    return base::Error{base::ErrorCode::kInvalid, "by: a person's id or \"machine\""};
  }
  const auto number = person_number(id);
  assert(number);
  return note_change(database, {clock_.now(), by, *number, what, about}, settings_.changes_kept);
}

base::Result<Person> Accounts::enter(Database& database, const std::string& name, Role role,
                                     const std::string& pin_hash, std::string_view by) {
  auto added = insert_person(database, name, role, pin_hash);
  if (!added) return added;
  const auto dropped = drop_code(database, kSetupCode);
  if (!dropped) return dropped.error();
  const auto noted = note(database, by, added->id, "person-added");
  if (!noted) return noted.error();
  return added;
}

base::Result<Person> Accounts::add_person(const std::string& name, Role role,
                                          const std::string& pin, std::string_view by) {
  const auto named = check_name(name);
  if (!named) return named.error();
  const auto allowed = check_pin(pin);
  if (!allowed) return allowed.error();
  const auto hash = hash_pin(pin);
  if (!hash) return hash.error();
  return store_->change([&](Database& db) { return enter(db, name, role, *hash, by); });
}

base::Status<> Accounts::reset_pin(std::string_view id, const std::string& pin,
                                   std::string_view by) {
  const auto allowed = check_pin(pin);
  if (!allowed) return allowed.error();
  const auto hash = hash_pin(pin);
  if (!hash) return hash.error();
  return store_->change([&](Database& db) -> base::Status<> {
    const auto found = find_person(db, id);
    if (!found) return found.error();
    if (!found->active) return base::Error{base::ErrorCode::kConflict, "that person is not active"};
    const auto number = person_number(id);
    const auto set = set_new_pin(db, *number, *hash);
    if (!set) return set.error();
    const auto cleared = clear_failures(db, *number);
    if (!cleared) return cleared.error();
    const auto ended = sessions_->end_all_of(db, *number);
    if (!ended) return ended.error();
    return note(db, by, id, "pin-reset");
  });
}

/// Of what the person did; the machine's command line is free.
base::Status<> Accounts::check_passphrases_of_day(Database& database, std::string_view id,
                                                  std::string_view by) {
  constexpr std::int64_t kDayMs = 86'400'000;
  const auto row = first_row(database,
                             "SELECT count(*) FROM change WHERE what = 'passphrase-set' AND "
                             "person = ?1 AND done_by = ?2 AND at_ms > ?3",
                             {person_number(id).value_or(0), id, clock_.now().ms - kDayMs});
  if (!row) return row.error();
  if (by != id || (*row)->integer(0) < settings_.passphrases_a_day) return base::Done{};
  return base::Error{base::ErrorCode::kConflict,
                     "the passphrase was set " + std::to_string(settings_.passphrases_a_day) +
                         " times within a day; accepted: again a day later"};
}

base::Status<> Accounts::set_passphrase(std::string_view id, const std::string& passphrase,
                                        std::string_view keep, std::string_view by) {
  const auto allowed = check_passphrase(passphrase);
  if (!allowed) return allowed.error();
  const auto hash = hash_pin(passphrase);
  if (!hash) return hash.error();
  return store_->change([&](Database& db) -> base::Status<> {
    const auto found = find_person(db, id);
    if (!found) return found.error();
    if (!found->active) return base::Error{base::ErrorCode::kConflict, "that person is not active"};
    const auto free = check_passphrases_of_day(db, id, by);
    if (!free) return free.error();
    const auto number = person_number(id);
    const auto set = set_new_passphrase(db, *number, *hash);
    if (!set) return set.error();
    const auto ended = sessions_->end_others_of(db, *number, keep);
    if (!ended) return ended.error();
    return note(db, by, id, "passphrase-set");
  });
}

base::Result<bool> Accounts::has_passphrase(std::string_view id) const {
  return store_->with([&](Database& db) -> base::Result<bool> {
    const auto found = find_pin(db, id, Secret::Kind::kPassphrase);
    if (!found) return found.error();
    return found->has_value();
  });
}

base::Status<> Accounts::deactivate(std::string_view id, std::string_view by) {
  return store_->change([&](Database& db) -> base::Status<> {
    const auto found = find_person(db, id);
    if (!found) return found.error();
    if (!found->active) return base::Done{};
    const auto needed = is_last_manager(db, *found);
    if (!needed) return needed.error();
    if (*needed) {
      return base::Error{base::ErrorCode::kConflict,
                         found->id + " is the last active manager: enter another manager first"};
    }
    const auto number = person_number(id);
    const auto set = run(db, "UPDATE person SET active = 0 WHERE number = ?1", {*number});
    if (!set) return set.error();
    const auto ended = sessions_->end_all_of(db, *number);
    if (!ended) return ended.error();
    const auto feed = drop_calendar_feed(db, *number);
    if (!feed) return feed.error();
    const auto pairing = drop_pairing_code_of(db, *number);
    if (!pairing) return pairing.error();
    return note(db, by, id, "deactivated");
  });
}

base::Status<> Accounts::activate(std::string_view id, std::string_view by) {
  return store_->change([&](Database& db) -> base::Status<> {
    const auto found = find_person(db, id);
    if (!found) return found.error();
    if (found->active) return base::Done{};
    if (found->name.empty()) return base::Error{base::ErrorCode::kConflict, kErased};
    const auto free = check_name_is_free(db, found->name);
    if (!free) return free.error();
    const auto set =
        run(db, "UPDATE person SET active = 1 WHERE number = ?1", {*person_number(id)});
    if (!set) return set.error();
    return note(db, by, id, "activated");
  });
}

base::Status<> Accounts::erase(std::string_view id, std::string_view by) {
  const auto erased = store_->change([&](Database& db) -> base::Status<> {
    const auto found = find_person(db, id);
    if (!found) return found.error();
    if (found->active) {
      return base::Error{base::ErrorCode::kConflict,
                         found->id + " is active; see 'person deactivate'"};
    }
    if (found->name.empty()) return base::Done{};
    const auto done = erase_person(db, *person_number(id));
    return done ? note(db, by, id, "erased") : done;
  });
  if (!erased) return erased;
  // What freed pages and the log still hold of it goes, too.
  return store_->with(
      [](Database& db) { return db.execute("VACUUM; PRAGMA wal_checkpoint(TRUNCATE);"); });
}

base::Status<> Accounts::leave_out_ids(const std::vector<std::string>& taken) {
  std::int64_t largest = 0;
  for (const std::string& id : taken) largest = std::max(largest, person_number(id).value_or(0));
  return store_->change([&](Database& db) { return leave_out_numbers(db, "person", largest); });
}

base::Result<Session> Accounts::session(std::string_view token) const {
  return sessions_->find(token, clock_.now());
}

base::Status<> Accounts::sign_out(std::string_view token) { return sessions_->end(token); }

base::Result<std::vector<ListedSession>> Accounts::sessions() const {
  return store_->with([&](Database& db) { return sessions_->list(db, clock_.now()); });
}

base::Result<ListedSession> Accounts::listed_session(std::string_view id) const {
  return store_->with([&](Database& db) { return sessions_->find_listed(db, id, clock_.now()); });
}

base::Status<> Accounts::end_session(std::string_view id, std::string_view by) {
  return store_->change([&](Database& db) -> base::Status<> {
    const auto listed = sessions_->find_listed(db, id, clock_.now());
    if (!listed) return listed.error();
    const auto ended = sessions_->end_listed(db, *listed);
    if (!ended) return ended.error();
    if (listed->person == by) return base::Done{};  // as signing out, which is no change either
    return note(db, by, listed->person, "session-ended", {std::nullopt, listed->id});
  });
}

base::Result<std::vector<Refusal>> Accounts::refusals() const { return store_->with(all_refusals); }

base::Result<std::vector<Change>> Accounts::changes() const { return store_->with(all_changes); }

Access::HashLoad Accounts::hash_load() const { return {hasher_->made(), hasher_->most_at_once()}; }

}  // namespace benchwarden::access
