#pragma once

#include <atomic>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "access/access.h"
#include "access/session_cache.h"
#include "access/settings.h"
#include "access/store.h"
#include "base/result.h"
#include "base/timestamp.h"

namespace benchwarden::access {

/// The table of sessions and the cache over it. A row leaves the table and the cache under the
/// store's lock, and the cache is filled under it, so an ended session cannot slip back in.
class Sessions {
 public:
  Sessions(Store& store, const SessionSettings& settings);       ///< the store outlives it
  static base::Status<> check(const SessionSettings& settings);  ///< kInvalid: out of range

  base::Result<Session> find(std::string_view token, base::Instant now);
  base::Status<> end(std::string_view token);

  // For use inside a Store::change or Store::with.
  /// kConflict: an inspector to whom no access is given now.
  base::Result<NewSession> begin(sqlite::Database& database, const Person& person, const From& from,
                                 base::Instant now);
  /// The same session under another token, confirmed now. kForbidden: it has ended.
  base::Result<NewSession> renew(sqlite::Database& database, std::string_view token,
                                 base::Instant now);
  base::Status<> end_all_of(sqlite::Database& database, std::int64_t person);
  /// All of a person but the one of that token.
  base::Status<> end_others_of(sqlite::Database& database, std::int64_t person,
                               std::string_view token);
  /// Those begun on that paired device.
  base::Status<> end_all_on(sqlite::Database& database, std::int64_t device);
  base::Result<std::vector<ListedSession>> list(sqlite::Database& database, base::Instant now);
  base::Result<ListedSession> find_listed(sqlite::Database& database, std::string_view id,
                                          base::Instant now);
  base::Status<> end_listed(sqlite::Database& database, const ListedSession& listed);
  base::Status<> purge(sqlite::Database& database, base::Instant now);
  void person_changed(std::int64_t person) { cache_.forget_person(person); }

 private:
  [[nodiscard]] const SessionLife& life_of(Role role) const;
  [[nodiscard]] Session as_session(const CachedSession& cached, base::Instant now) const;
  base::Status<> make_room(sqlite::Database& database, std::int64_t person);
  bool claim_foreign_check(base::Instant now);
  base::Status<> forget_foreign_changes(sqlite::Database& database);
  base::Result<std::optional<CachedSession>> load(sqlite::Database& database,
                                                  const base::Sha256Digest& token,
                                                  base::Instant now);
  base::Result<Session> find_slowly(sqlite::Database& database, const base::Sha256Digest& token,
                                    base::Instant now);

  Store& store_;
  SessionSettings settings_;
  SessionCache cache_;
  std::atomic<std::int64_t> foreign_checked_ms_{0};
  std::int64_t data_version_ = -1;  ///< under the store's lock
};

}  // namespace benchwarden::access
