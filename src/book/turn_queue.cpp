#include "book/turn_queue.h"

#include <cassert>
#include <utility>

namespace benchwarden::book {

TurnQueue::Turn TurnQueue::wait(Ticket& ticket) {
  std::unique_lock lock(mutex_);
  waiting_.push_back(&ticket);
  ticket.wake_.wait(lock, [&] { return ticket.finished_ || waiting_.front() == &ticket; });
  if (ticket.finished_) return {};
  std::vector<Ticket*> group{&ticket};
  if (ticket.draft == nullptr) return {*this, std::move(group)};
  for (std::size_t i = 1; i < waiting_.size() && group.size() < kGroupMax; ++i) {
    if (waiting_[i]->draft == nullptr) break;
    group.push_back(waiting_[i]);
  }
  return {*this, std::move(group)};
}

void TurnQueue::finish(const std::vector<Ticket*>& group) {
  const std::lock_guard lock(mutex_);
  for (Ticket* ticket : group) {
    assert(!waiting_.empty() && waiting_.front() == ticket);
    waiting_.pop_front();
    ticket->finished_ = true;
    // Under the lock: once it is released the ticket may be gone with its thread's stack.
    ticket->wake_.notify_one();
  }
  if (!waiting_.empty()) waiting_.front()->wake_.notify_one();
}

TurnQueue::Turn::Turn(Turn&& other) noexcept
    : queue_(std::exchange(other.queue_, nullptr)), group_(std::move(other.group_)) {}

TurnQueue::Turn::~Turn() {
  if (queue_ == nullptr) return;
  for (Ticket* ticket : group_) {
    if (ticket->draft == nullptr || ticket->receipt) continue;
    ticket->receipt = base::Error{base::ErrorCode::kUnavailable, "the entry was not recorded"};
  }
  queue_->finish(group_);
}

}  // namespace benchwarden::book
