#pragma once

#include <mutex>
#include <shared_mutex>

namespace benchwarden::workshop {

/// Who may be between validating an entry and appending it. Entries that only measure (a drain, a
/// reading) go in side by side. An entry that changes what others are checked against (the
/// register, a correction, a seal, an inspection) goes in alone, so that nothing is accepted
/// against a state that no longer holds.
class Admission {
 public:
  [[nodiscard]] std::shared_lock<std::shared_mutex> beside_others() {
    const std::lock_guard queue(gate_);
    return std::shared_lock(room_);
  }
  /// Holding the gate while waiting keeps a stream of measuring entries from starving this one.
  [[nodiscard]] std::unique_lock<std::shared_mutex> alone() {
    const std::lock_guard queue(gate_);
    return std::unique_lock(room_);
  }

 private:
  std::mutex gate_;
  std::shared_mutex room_;
};

}  // namespace benchwarden::workshop
