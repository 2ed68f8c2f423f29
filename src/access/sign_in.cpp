#include <utility>

#include "access/accounts.h"
#include "access/inspections.h"
#include "access/journal.h"
#include "access/sign_in_guard.h"

namespace benchwarden::access {
namespace {

using Reason = SignInRefusal::Reason;

SignInRefusal fault(const base::Error& error) {
  return SignInRefusal{Reason::kFault, 1, error.detail};
}

SignInRefusal wrong() {
  return SignInRefusal{Reason::kWrong, std::nullopt, "wrong PIN or unknown person"};
}

SignInRefusal locked_out(std::int64_t wait_ms) {
  const std::int64_t seconds = (wait_ms + 999) / 1000;
  return SignInRefusal{Reason::kLockedOut, seconds,
                       "locked out for " + std::to_string(seconds) + " s"};
}

/// On paired devices and the machine itself nobody else can try: wrong tries there are counted
/// apart from the first one on.
Trier trier(std::int64_t person, const From& from) {
  return {person, from.counted_as(), from.place != Place::kElsewhere};
}

base::Result<NewSession, SignInRefusal> or_refusal(base::Result<NewSession> session) {
  if (session) return *std::move(session);
  if (session.error().code == base::ErrorCode::kForbidden) return wrong();
  return fault(session.error());
}

}  // namespace

base::Result<StoredPin, SignInRefusal> Accounts::check_secret(std::string_view person,
                                                              const Secret& secret,
                                                              const From& from, base::Instant now) {
  const auto in_line = line_.join(from.address);
  if (!in_line) {
    return SignInRefusal{Reason::kOneAtATime, 1,
                         "another sign-in from this address is being checked"};
  }
  // The try is charged with the slot in hand: however many wait in line, no more than are hashed
  // at once can have passed the lock-out.
  const auto slot = hasher_->take_slot();
  if (!slot) return SignInRefusal{Reason::kBusy, 1, "too many are signing in just now"};
  const auto tried = charge(person, secret.kind, from, now);
  if (!tried) return fault(tried.error());
  if (tried->shut_out_ms) return locked_out(*tried->shut_out_ms);

  const std::string& stored = tried->pin ? tried->pin->hash : stand_in_hash_;
  const bool matches = hasher_->matches(*slot, stored, secret.text) && tried->pin;
  if (!matches) {
    const auto noted = refuse_wrong(*tried, from, now);
    if (!noted) return fault(noted.error());
    return wrong();
  }
  StoredPin admitted = *tried->pin;
  if (hasher_->is_outdated(admitted.hash)) {
    auto hash = hasher_->hash(*slot, secret.text);
    if (!hash) return fault(hash.error());
    admitted.hash = *std::move(hash);
  }
  return admitted;
}

base::Result<NewSession, SignInRefusal> Accounts::sign_in(std::string_view person,
                                                          const Secret& secret, const From& from) {
  const base::Instant now = clock_.now();
  const auto checked = check_secret(person, secret, from, now);
  if (!checked) return checked.error();
  auto admitted = admit(person, *checked, from, now);
  if (!admitted) return or_refusal(admitted.error());
  if (*admitted) return **std::move(admitted);
  return SignInRefusal{Reason::kNoAccess, std::nullopt, "no access is given for now"};
}

base::Result<NewSession, SignInRefusal> Accounts::confirm(std::string_view token,
                                                          const Secret& secret, const From& from) {
  const base::Instant now = clock_.now();
  const auto session = sessions_->find(token, now);
  if (!session) return wrong();
  const auto checked = check_secret(session->person, secret, from, now);
  if (!checked) return checked.error();
  return or_refusal(store_->change([&](sqlite::Database& database) -> base::Result<NewSession> {
    const auto accepted = accept(database, session->person, *checked, from, now);
    if (!accepted) return accepted.error();
    return sessions_->renew(database, token, now);
  }));
}

base::Result<Accounts::Try> Accounts::charge(std::string_view person, Secret::Kind kind,
                                             const From& from, base::Instant now) {
  return store_->change([&](sqlite::Database& database) -> base::Result<Try> {
    auto pin = find_pin(database, person, kind);
    if (!pin) return pin.error();
    const std::int64_t number = *pin ? (*pin)->person : kNobody;
    const auto shut_out = charge_try(database, trier(number, from), now, settings_.lock_out);
    if (!shut_out) return shut_out.error();
    if (*shut_out) {
      const auto noted = note_refused(database, {now, number, "locked-out", from.address});
      if (!noted) return noted.error();
    }
    return Try{*std::move(pin), *shut_out};
  });
}

base::Status<> Accounts::refuse_wrong(const Try& tried, const From& from, base::Instant now) {
  return store_->change([&](sqlite::Database& database) {
    if (!tried.pin) return note_refused(database, {now, {}, "unknown-person", from.address});
    return note_refused(database, {now, tried.pin->person, "wrong-pin", from.address});
  });
}

base::Status<> Accounts::note_refused(sqlite::Database& database, const NewRefusal& refusal) {
  const auto counted = count_access(database, refusal.at, refusal.reason);
  if (!counted) return counted.error();
  return note_refusal(database, refusal, settings_.refusals_kept);
}

base::Status<> Accounts::accept(sqlite::Database& database, std::string_view person,
                                const StoredPin& pin, const From& from, base::Instant now) {
  const auto still = find_pin(database, person, pin.kind);
  if (!still) return still.error();
  if (!*still || (*still)->serial != pin.serial) {
    return base::Error{base::ErrorCode::kForbidden, "the PIN was set anew meanwhile"};
  }
  if ((*still)->hash != pin.hash) {
    const auto set = set_same_pin(database, pin);
    if (!set) return set.error();
  }
  return note_right_pin(database, trier(pin.person, from), now, settings_.lock_out.addresses_kept);
}

base::Result<bool> Accounts::may_come_in(sqlite::Database& database, const Person& person,
                                         const From& from, base::Instant now) {
  if (person.role != Role::kInspector) return true;
  const std::int64_t number = *person_number(person.id);
  const auto inspection = inspection_now(database, number, now);
  if (!inspection) return inspection.error();
  if (*inspection) return true;
  const auto noted = note_refused(database, {now, number, "no-access", from.address});
  if (!noted) return noted.error();
  return false;
}

// None, and not an error, where no access is given: that the PIN was right is to be kept.
base::Result<std::optional<NewSession>> Accounts::admit(std::string_view person,
                                                        const StoredPin& pin, const From& from,
                                                        base::Instant now) {
  return store_->change([&](sqlite::Database& database) -> base::Result<std::optional<NewSession>> {
    const auto accepted = accept(database, person, pin, from, now);
    if (!accepted) return accepted.error();
    const auto purged = sessions_->purge(database, now);
    if (!purged) return purged.error();
    const auto found = find_person(database, person);
    if (!found) return found.error();
    const auto may = may_come_in(database, *found, from, now);
    if (!may) return may.error();
    if (!*may) return std::optional<NewSession>();
    const auto noted = note_sign_in(database, now, pin.person, from.place, settings_.sign_ins_kept);
    if (!noted) return noted.error();
    auto begun = sessions_->begin(database, *found, from, now);
    if (!begun) return begun.error();
    return std::optional(*std::move(begun));
  });
}

}  // namespace benchwarden::access
