#pragma once

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <optional>

namespace benchwarden::base {

struct GateLimits {
  int inside_max = 1;                     ///< 1 or more
  int waiting_max = 0;                    ///< 0 or more; who comes then is turned away at once
  std::chrono::milliseconds wait_max{0};  ///< and who waited this long, too
};

/// Bounds how much of something costly is done at once, and how many wait for it.
class Gate {
 public:
  /// Being inside, for as long as it lives.
  class Place {
   public:
    explicit Place(Gate& gate) : gate_(&gate) {}
    Place(Place&& other) noexcept;
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;
    Place& operator=(Place&&) = delete;
    ~Place();

   private:
    Gate* gate_;
  };

  explicit Gate(const GateLimits& limits);

  /// None: turned away.
  std::optional<Place> enter();
  /// From now on everybody is turned away, those who wait at once. Those inside finish.
  void close();

  [[nodiscard]] int waiting() const;      ///< at this moment
  [[nodiscard]] int most_inside() const;  ///< ever, at one moment

 private:
  void leave();

  const GateLimits limits_;
  mutable std::mutex mutex_;
  std::condition_variable changed_;
  int inside_ = 0;
  int waiting_ = 0;
  int most_inside_ = 0;
  bool is_closed_ = false;
};

}  // namespace benchwarden::base
