#include "access/hash_gate.h"

#include <algorithm>
#include <cassert>
#include <utility>

namespace benchwarden::access {

HashGate::Slot::Slot(Slot&& other) noexcept : gate_(std::exchange(other.gate_, nullptr)) {}

HashGate::Slot::~Slot() {
  if (gate_ != nullptr) gate_->give_back();
}

HashGate::HashGate(int at_once_max) : at_once_max_(at_once_max) { assert(at_once_max_ >= 1); }

std::optional<HashGate::Slot> HashGate::take(std::chrono::milliseconds wait_max) {
  std::unique_lock lock(mutex_);
  if (!freed_.wait_for(lock, wait_max, [this] { return taken_ < at_once_max_; })) {
    return std::nullopt;
  }
  ++taken_;
  most_ = std::max(most_, taken_);
  return std::optional<Slot>(std::in_place, *this);
}

int HashGate::most_at_once() const {
  const std::lock_guard lock(mutex_);
  return most_;
}

void HashGate::give_back() {
  {
    const std::lock_guard lock(mutex_);
    assert(taken_ > 0);
    --taken_;
  }
  freed_.notify_one();
}

}  // namespace benchwarden::access
