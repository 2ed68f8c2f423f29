#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <map>
#include <mutex>
#include <optional>
#include <string>

namespace benchwarden::http {

/// Requests of one device or address. Common practice, no source: a page of the app asks for some
/// dozens at once, and a tablet that was away hands in its entries in a row.
struct RateSettings {
  double per_second = 30;           ///< in the long run
  double at_once = 600;             ///< after a rest
  std::size_t keys_max = 4'096;     ///< the one unused for longest makes room
  bool spares_this_machine = true;  ///< nothing is counted of loopback
};

/// A bucket for each, which fills with time and pays for each request. Safe to use from many
/// threads.
class RateLimits {
 public:
  using Time = std::chrono::steady_clock::time_point;
  explicit RateLimits(const RateSettings& settings) : settings_(settings) {}

  /// None: the request is paid for. Else whole seconds until one would be.
  std::optional<std::int64_t> take(const std::string& key, Time now);
  [[nodiscard]] const RateSettings& settings() const { return settings_; }

 private:
  struct Bucket {
    double holds = 0;
    Time at;
  };
  void make_room();

  const RateSettings settings_;
  std::mutex mutex_;
  std::map<std::string, Bucket> buckets_;
};

}  // namespace benchwarden::http
