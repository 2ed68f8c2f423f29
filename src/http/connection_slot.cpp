#include "http/connection_slot.h"

#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

namespace benchwarden::http {

ConnectionSlot::ConnectionSlot(int descriptor, std::string peer, const GuardSettings& settings)
    : descriptor_(descriptor),
      peer_(std::move(peer)),
      settings_(settings),
      entered_(Clock::now()),
      deadline_(entered_ + settings.header) {
  assert(descriptor_ >= 0);
}

ConnectionSlot::~ConnectionSlot() { ::close(descriptor_); }

std::chrono::milliseconds ConnectionSlot::allowance(Phase phase) const {
  switch (phase) {
    case Phase::kAwaiting:
      return settings_.idle + settings_.header;
    case Phase::kBody:
      return settings_.body;
    case Phase::kSending:
      return settings_.sending;
    case Phase::kDraining:
      return settings_.draining;
    case Phase::kWorking:
      break;
  }
  // A handler takes the time it needs; what is too long for a request is its own concern.
  return std::chrono::hours(24 * 365);
}

void ConnectionSlot::enter(Phase phase) {
  const std::lock_guard lock(mutex_);
  phase_ = phase;
  entered_ = Clock::now();
  deadline_ = entered_ + allowance(phase);
}

void ConnectionSlot::enter_body(std::chrono::milliseconds time) {
  const std::lock_guard lock(mutex_);
  phase_ = Phase::kBody;
  entered_ = Clock::now();
  deadline_ = entered_ + time;
}

void ConnectionSlot::cut() {
  is_cut_ = true;
  ::shutdown(descriptor_, phase_ == Phase::kBody ? SHUT_RD : SHUT_RDWR);
}

std::optional<Phase> ConnectionSlot::cut_if_due(Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  if (now < deadline_) {
    return std::nullopt;
  }
  cut();
  // Once is enough: what the worker does next has a deadline of its own.
  deadline_ = now + allowance(Phase::kWorking);
  return phase_;
}

std::optional<ConnectionSlot::Clock::time_point> ConnectionSlot::awaiting_since() const {
  const std::lock_guard lock(mutex_);
  if (phase_ != Phase::kAwaiting || is_cut_) {
    return std::nullopt;
  }
  return entered_;
}

bool ConnectionSlot::cut_if_awaiting() {
  const std::lock_guard lock(mutex_);
  if (phase_ != Phase::kAwaiting || is_cut_) {
    return false;
  }
  cut();
  return true;
}

void ConnectionSlot::cut_for_stop(Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  if (phase_ == Phase::kSending) {
    deadline_ = std::min(deadline_, now + settings_.stopping);
  } else if (phase_ != Phase::kWorking) {
    cut();
  }
}

bool ConnectionSlot::was_cut() const {
  const std::lock_guard lock(mutex_);
  return is_cut_;
}

std::optional<char> ConnectionSlot::await_first_byte() const {
  pollfd wait{descriptor_, POLLIN, 0};
  char first = 0;
  if (::poll(&wait, 1, -1) <= 0 || ::recv(descriptor_, &first, 1, MSG_PEEK | MSG_DONTWAIT) != 1) {
    return std::nullopt;
  }
  return first;
}

void ConnectionSlot::send_bare(std::string_view bytes) const {
  // A new connection takes a short answer at once or not at all.
  [[maybe_unused]] const ssize_t sent =
      ::send(descriptor_, bytes.data(), bytes.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
}

void ConnectionSlot::half_close_and_drain(std::size_t bytes_max) {
  enter(Phase::kDraining);
  ::shutdown(descriptor_, SHUT_WR);
  const Clock::time_point end = Clock::now() + settings_.draining;
  std::array<char, 4096> sink{};
  std::size_t drained = 0;
  while (drained < bytes_max) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - Clock::now());
    pollfd wait{descriptor_, POLLIN, 0};
    if (left.count() <= 0 || ::poll(&wait, 1, static_cast<int>(left.count())) <= 0) {
      return;
    }
    const ssize_t got = ::recv(descriptor_, sink.data(), sink.size(), MSG_DONTWAIT);
    if (got <= 0) {
      return;
    }
    drained += static_cast<std::size_t>(got);
  }
}

}  // namespace benchwarden::http
