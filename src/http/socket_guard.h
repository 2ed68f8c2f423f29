#pragma once

#include <condition_variable>
#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <thread>

#include "http/connection_slot.h"
#include "http/guard_settings.h"

namespace benchwarden::http {

struct GuardCounters {
  std::uint64_t admitted = 0;
  std::uint64_t refused_full = 0;    ///< closed unanswered: too many connections in all
  std::uint64_t refused_peer = 0;    ///< closed unanswered: too many from one address
  std::uint64_t cut_for_others = 0;  ///< was waiting when another address needed its place
  std::uint64_t cut_awaiting = 0;    ///< silent, idle for long, or a head that dripped
  std::uint64_t cut_body = 0;
  std::uint64_t cut_sending = 0;  ///< the other end did not take its answer
};

/// Decides which connections are let in, and watches those that are. The thread-per-connection
/// library has no total deadline for a head or a body; this has.
class SocketGuard {
 public:
  /// Names a connection from accepting it to its end; any address unique for that time.
  using Key = const void*;

  explicit SocketGuard(const GuardSettings& settings);
  ~SocketGuard();
  SocketGuard(const SocketGuard&) = delete;
  SocketGuard& operator=(const SocketGuard&) = delete;
  SocketGuard(SocketGuard&&) = delete;
  SocketGuard& operator=(SocketGuard&&) = delete;

  /// On accepting: whether it may stay. Takes a second descriptor of the socket. Where no place is
  /// free, the address that has the most gives one up that only waits, if the newcomer's then still
  /// has fewer: no few addresses shut out all others.
  bool admit(Key key, int descriptor, const std::string& peer);
  /// By the worker that takes it up. Nullptr when its deadline came first.
  std::shared_ptr<ConnectionSlot> claim(Key key);
  /// By the worker, at the end.
  void release(Key key, const std::shared_ptr<ConnectionSlot>& slot);

  /// From now on everything that waits on the other end is cut.
  void begin_stop();

  [[nodiscard]] GuardCounters counters() const;

 private:
  struct Entry {
    std::shared_ptr<ConnectionSlot> slot;
    bool is_claimed = false;
  };
  [[nodiscard]] std::map<std::string, std::size_t> places_taken() const;
  bool make_room(std::size_t places_of_peer, const std::map<std::string, std::size_t>& taken);
  void watch();
  void sweep();  ///< with mutex_ held
  void count_cut(Phase phase);

  const GuardSettings settings_;
  mutable std::mutex mutex_;
  std::condition_variable wake_;
  std::map<Key, Entry> entries_;
  GuardCounters counters_;
  bool is_stopping_ = false;
  bool is_ended_ = false;
  std::thread watchdog_;  ///< last, so that it starts when the rest is there
};

}  // namespace benchwarden::http
