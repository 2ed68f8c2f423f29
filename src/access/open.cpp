#include <sodium.h>

#include <utility>

#include "access/accounts.h"
#include "access/lock_out.h"

namespace benchwarden::access {
namespace {

base::Status<> check_settings(const Settings& settings) {
  const auto lock_out = check_lock_out(settings.lock_out);
  if (!lock_out) return lock_out.error();
  const auto sessions = Sessions::check(settings.sessions);
  if (!sessions) return sessions.error();
  const HashCost& cost = settings.hash_cost;
  if (cost.at_once_max < 1 || cost.wait_ms_max < 0 ||
      cost.passes < crypto_pwhash_argon2id_OPSLIMIT_MIN ||
      cost.memory_bytes < crypto_pwhash_argon2id_MEMLIMIT_MIN) {
    return base::Error{base::ErrorCode::kInvalid,
                       "PIN hashing: wants 1 or more at once and 1 or more passes over 8 KiB or "
                       "more, and no wait below 0"};
  }
  if (settings.refusals_kept < 1 || settings.changes_kept < 1 || settings.setup_tries < 1 ||
      settings.pairing_tries < 1 || settings.pairing_ms <= 0 || settings.device_seen_every_ms < 0) {
    return base::Error{base::ErrorCode::kInvalid,
                       "access: lists keep 1 line or more, a code has 1 try or more and some time"};
  }
  return base::Done{};
}

}  // namespace

base::Result<std::unique_ptr<Access>> Access::open(const std::filesystem::path& folder,
                                                   const base::Clock& clock,
                                                   const Settings& settings) {
  if (sodium_init() < 0) {
    return base::Error{base::ErrorCode::kUnavailable, "no source of random bytes"};
  }
  const auto checked = check_settings(settings);
  if (!checked) return checked.error();
  auto store = Store::open(folder);
  if (!store) return store.error();
  const auto entered = (*store)->with(anybody_entered);
  if (!entered) return entered.error();
  const auto pepper =
      Pepper::load(folder, *entered ? Pepper::IfMissing::kRefuse : Pepper::IfMissing::kMake);
  if (!pepper) return pepper.error();
  auto accounts = std::make_unique<Accounts>(*std::move(store), *pepper, clock, settings);
  const auto ready = accounts->begin();
  if (!ready) return ready.error();
  return std::unique_ptr<Access>(std::move(accounts));
}

}  // namespace benchwarden::access
