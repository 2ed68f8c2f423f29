#pragma once

#include <chrono>
#include <cstddef>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

#include "http/guard_settings.h"

namespace benchwarden::http {

/// What a connection is doing; each phase but the handler's own has a deadline.
enum class Phase { kAwaiting, kBody, kWorking, kSending, kDraining };

/// Our own hold on one connection: a second descriptor of the same socket. The library closes its
/// descriptor in a worker whenever it likes, so another thread must never touch that one; ours is
/// closed only when the last owner of the slot is gone. All members may be called from any thread.
class ConnectionSlot {
 public:
  using Clock = std::chrono::steady_clock;

  /// Takes ownership of the descriptor.
  ConnectionSlot(int descriptor, std::string peer, const GuardSettings& settings);
  ~ConnectionSlot();
  ConnectionSlot(const ConnectionSlot&) = delete;
  ConnectionSlot& operator=(const ConnectionSlot&) = delete;
  ConnectionSlot(ConnectionSlot&&) = delete;
  ConnectionSlot& operator=(ConnectionSlot&&) = delete;

  [[nodiscard]] const std::string& peer() const { return peer_; }

  /// Called by the worker. Entering kAwaiting again starts the wait for a further request.
  void enter(Phase phase);
  /// Phase::kBody with a time of its own.
  void enter_body(std::chrono::milliseconds time);

  /// Cuts the connection when the deadline of its phase has passed; gives the phase then. A late
  /// body is only stopped from arriving, so that the worker can still answer.
  std::optional<Phase> cut_if_due(Clock::time_point now);
  /// Since when nothing but a head is waited for; none while there is more to it.
  [[nodiscard]] std::optional<Clock::time_point> awaiting_since() const;
  /// Cuts it, though it is not due, unless its head has come meanwhile; whether it did.
  bool cut_if_awaiting();
  /// Cuts it unless a handler works or an answer is being sent; an answer gets `stopping` more.
  void cut_for_stop(Clock::time_point now);
  [[nodiscard]] bool was_cut() const;

  /// The first byte that comes, which stays to be read; nothing when the connection ends before.
  /// Waits no longer than the deadline of the phase: then the connection is cut.
  [[nodiscard]] std::optional<char> await_first_byte() const;
  /// Past the library, and so in the clear.
  void send_bare(std::string_view bytes) const;

  /// After an answer with unread input: says that no more comes from us and reads on for a while.
  /// Closing at once would make the system send a reset, which can destroy the answer on its way.
  void half_close_and_drain(std::size_t bytes_max);

 private:
  void cut();  ///< with mutex_ held
  [[nodiscard]] std::chrono::milliseconds allowance(Phase phase) const;

  const int descriptor_;
  const std::string peer_;
  const GuardSettings settings_;
  mutable std::mutex mutex_;
  Phase phase_ = Phase::kAwaiting;
  Clock::time_point entered_;  ///< the phase
  Clock::time_point deadline_;
  bool is_cut_ = false;
};

}  // namespace benchwarden::http
