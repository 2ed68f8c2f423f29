#include <utility>

#include "access/accounts.h"
#include "access/one_time_code.h"
#include "access/pin_rules.h"
#include "access/setup.h"

namespace benchwarden::access {
namespace {

base::Error somebody_entered() {
  return base::Error{base::ErrorCode::kConflict, "somebody is entered already"};
}

}  // namespace

base::Result<std::optional<std::string>> Accounts::setup_code() {
  return store_->change([&](sqlite::Database& database) { return renew_code(database); });
}

base::Result<std::optional<std::string>> Accounts::renew_code(sqlite::Database& database) {
  code_made_ = clock_.now();
  return renew_setup_code(database, pepper_, settings_.setup_tries);
}

base::Result<Person> Accounts::first_manager(const std::string& code, const std::string& name,
                                             const std::string& pin) {
  const auto named = check_name(name);
  if (!named) return named.error();
  const auto allowed = check_pin(pin);
  if (!allowed) return allowed.error();
  // Nobody's try is counted once somebody is entered.
  const auto too_late = store_->with(anybody_entered);
  if (!too_late) return too_late.error();
  if (*too_late) return somebody_entered();
  const auto checked = store_->change(
      [&](sqlite::Database& database) { return check_code(database, pepper_, kSetupCode, code); });
  if (!checked) return checked.error();
  if (*checked == CodeCheck::kLastTryWrong || *checked == CodeCheck::kNoCode) {
    const auto shown = show_next_code();
    if (!shown) return shown.error();
  }
  if (*checked != CodeCheck::kRight) {
    return base::Error{base::ErrorCode::kForbidden, "wrong or spent set-up code"};
  }
  const auto hash = hash_pin(pin);
  if (!hash) return hash.error();
  return store_->change([&](sqlite::Database& database) -> base::Result<Person> {
    // Of two with the right code, only one is first.
    const auto entered = anybody_entered(database);
    if (!entered) return entered.error();
    if (*entered) return somebody_entered();
    return enter(database, name, Role::kManager, *hash, "setup");
  });
}

// Not at once, or a stranger could fill the console with codes.
base::Status<> Accounts::show_next_code() {
  if (!settings_.show_setup_code) return base::Done{};
  const auto next =
      store_->change([&](sqlite::Database& database) -> base::Result<std::optional<std::string>> {
        // A clock that was set back must not hold back the next one until it has caught up.
        const base::Instant now = clock_.now();
        const bool is_soon = code_made_ && now >= *code_made_ &&
                             now.ms - code_made_->ms < settings_.setup_code_every_ms;
        return is_soon ? std::optional<std::string>() : renew_code(database);
      });
  if (!next) return next.error();
  if (*next) settings_.show_setup_code(**next);
  return base::Done{};
}

}  // namespace benchwarden::access
