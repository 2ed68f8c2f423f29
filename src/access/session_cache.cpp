#include "access/session_cache.h"

#include <algorithm>

namespace benchwarden::access {

base::Instant expires_at(const CachedSession& cached) {
  return std::min(cached.ends, base::Instant{cached.last_seen.ms + cached.idle_ms});
}

bool has_ended(const CachedSession& cached, base::Instant now) {
  return expires_at(cached) <= now || cached.last_seen.ms - cached.idle_ms > now.ms;
}

std::optional<CachedSession> SessionCache::touch(const base::Sha256Digest& token,
                                                 base::Instant now) {
  const std::lock_guard lock(mutex_);
  const auto found = sessions_.find(token);
  if (found == sessions_.end()) return std::nullopt;
  if (has_ended(found->second, now)) {
    sessions_.erase(found);
    return std::nullopt;
  }
  found->second.last_seen = std::max(found->second.last_seen, now);
  return found->second;
}

void SessionCache::put(const base::Sha256Digest& token, const CachedSession& session) {
  const std::lock_guard lock(mutex_);
  if (!sessions_.contains(token) && sessions_.size() >= kept_max_) {
    const auto oldest = std::min_element(
        sessions_.begin(), sessions_.end(),
        [](const auto& a, const auto& b) { return a.second.last_seen < b.second.last_seen; });
    if (oldest != sessions_.end()) sessions_.erase(oldest);
  }
  if (kept_max_ > 0) sessions_.insert_or_assign(token, session);
}

void SessionCache::mark_written(const base::Sha256Digest& token, base::Instant at) {
  const std::lock_guard lock(mutex_);
  const auto found = sessions_.find(token);
  if (found != sessions_.end()) found->second.last_written = at;
}

void SessionCache::forget(const base::Sha256Digest& token) {
  const std::lock_guard lock(mutex_);
  sessions_.erase(token);
}

void SessionCache::forget_person(std::int64_t person) {
  const std::lock_guard lock(mutex_);
  std::erase_if(sessions_, [person](const auto& pair) { return pair.second.person == person; });
}

void SessionCache::clear() {
  const std::lock_guard lock(mutex_);
  sessions_.clear();
}

std::size_t SessionCache::size() const {
  const std::lock_guard lock(mutex_);
  return sessions_.size();
}

}  // namespace benchwarden::access
