#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <mutex>
#include <optional>

#include "access/access.h"
#include "base/sha256.h"

namespace benchwarden::access {

struct CachedSession {
  std::int64_t person = 0;
  Session session;  ///< its `expires_at` follows from the rest: see `expires_at`
  base::Instant ends;
  std::int64_t idle_ms = 0;
  base::Instant last_seen;
  base::Instant last_written;    ///< what access.db has as last seen
  base::Instant confirmed = {};  ///< when a PIN of its person was right last
};

/// The earlier of the absolute end and the end by not being used.
base::Instant expires_at(const CachedSession& cached);

/// Also where the clock was set back since the last use by more than a session may lie unused: how
/// old it is nobody can tell then, and begun under a wrong clock it might never end.
bool has_ended(const CachedSession& cached, base::Instant now);

/// The sessions in use, so that a request is not kept waiting by the disk. Bounded; the one unused
/// for longest makes room. Safe to use from many threads.
class SessionCache {
 public:
  explicit SessionCache(std::size_t kept_max) : kept_max_(kept_max) {}

  /// Counts as a use. None: not here, or ended and dropped.
  std::optional<CachedSession> touch(const base::Sha256Digest& token, base::Instant now);
  void put(const base::Sha256Digest& token, const CachedSession& session);
  void mark_written(const base::Sha256Digest& token, base::Instant at);
  void forget(const base::Sha256Digest& token);
  void forget_person(std::int64_t person);
  void clear();
  [[nodiscard]] std::size_t size() const;

 private:
  const std::size_t kept_max_;
  mutable std::mutex mutex_;
  std::map<base::Sha256Digest, CachedSession> sessions_;
};

}  // namespace benchwarden::access
