#include "base/gate.h"

#include <algorithm>
#include <cassert>
#include <utility>

namespace benchwarden::base {

Gate::Place::Place(Place&& other) noexcept : gate_(std::exchange(other.gate_, nullptr)) {}

Gate::Place::~Place() {
  if (gate_ != nullptr) gate_->leave();
}

Gate::Gate(const GateLimits& limits) : limits_(limits) {
  assert(limits_.inside_max >= 1 && limits_.waiting_max >= 0);
}

std::optional<Gate::Place> Gate::enter() {
  std::unique_lock lock(mutex_);
  if (!is_closed_ && inside_ >= limits_.inside_max) {
    if (waiting_ >= limits_.waiting_max) return std::nullopt;
    ++waiting_;
    changed_.wait_for(lock, limits_.wait_max,
                      [this] { return is_closed_ || inside_ < limits_.inside_max; });
    --waiting_;
  }
  if (is_closed_ || inside_ >= limits_.inside_max) return std::nullopt;
  ++inside_;
  most_inside_ = std::max(most_inside_, inside_);
  return std::optional<Place>(std::in_place, *this);
}

void Gate::close() {
  {
    const std::lock_guard lock(mutex_);
    is_closed_ = true;
  }
  changed_.notify_all();
}

int Gate::waiting() const {
  const std::lock_guard lock(mutex_);
  return waiting_;
}

int Gate::most_inside() const {
  const std::lock_guard lock(mutex_);
  return most_inside_;
}

void Gate::leave() {
  {
    const std::lock_guard lock(mutex_);
    assert(inside_ > 0);
    --inside_;
  }
  changed_.notify_one();
}

}  // namespace benchwarden::base
