#pragma once

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <optional>

namespace benchwarden::access {

/// Lets at most `at_once_max` in; the others wait, though not for ever.
class HashGate {
 public:
  class Slot {
   public:
    explicit Slot(HashGate& gate) : gate_(&gate) {}
    Slot(Slot&& other) noexcept;
    Slot(const Slot&) = delete;
    Slot& operator=(const Slot&) = delete;
    Slot& operator=(Slot&&) = delete;
    ~Slot();

   private:
    HashGate* gate_;
  };

  explicit HashGate(int at_once_max);  ///< 1 or more
  /// None when no slot came free within `wait_max`.
  std::optional<Slot> take(std::chrono::milliseconds wait_max);
  [[nodiscard]] int most_at_once() const;

 private:
  void give_back();

  const int at_once_max_;
  mutable std::mutex mutex_;
  std::condition_variable freed_;
  int taken_ = 0;
  int most_ = 0;
};

}  // namespace benchwarden::access
