#include "http/rate_limits.h"

#include <algorithm>
#include <cmath>

namespace benchwarden::http {

std::optional<std::int64_t> RateLimits::take(const std::string& key, Time now) {
  const std::lock_guard lock(mutex_);
  if (buckets_.size() >= settings_.keys_max && !buckets_.contains(key)) make_room();
  Bucket& bucket = buckets_.try_emplace(key, Bucket{settings_.at_once, now}).first->second;
  const std::chrono::duration<double> passed = now - bucket.at;
  bucket.holds = std::min(settings_.at_once, bucket.holds + passed.count() * settings_.per_second);
  bucket.at = now;
  if (bucket.holds >= 1) {
    bucket.holds -= 1;
    return std::nullopt;
  }
  return std::max<std::int64_t>(1,
                                std::lround(std::ceil((1 - bucket.holds) / settings_.per_second)));
}

void RateLimits::make_room() {
  const auto oldest =
      std::min_element(buckets_.begin(), buckets_.end(),
                       [](const auto& a, const auto& b) { return a.second.at < b.second.at; });
  if (oldest != buckets_.end()) buckets_.erase(oldest);
}

}  // namespace benchwarden::http
