#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <mutex>
#include <optional>
#include <vector>

#include "base/result.h"
#include "book/book.h"

namespace benchwarden::book {

/// Who may use the writing connection. The first thread in the queue leads: it takes along all
/// drafts that wait behind it, commits them as one group and wakes their threads with their
/// answers. No thread of its own, so a lone writer pays for no hand-over.
class TurnQueue {
 public:
  static constexpr std::size_t kGroupMax = 256;

  /// One thread's place in the queue; lives on that thread's stack.
  struct Ticket {
    Ticket() = default;                                       ///< wants the connection for itself
    explicit Ticket(const Draft& wanted) : draft(&wanted) {}  ///< may be committed by another

    const Draft* draft = nullptr;
    std::optional<base::Result<Receipt>> receipt;

   private:
    friend class TurnQueue;
    bool finished_ = false;
    std::condition_variable wake_;
  };

  /// The right to write, given up at the end of the scope. Not leading: the ticket was answered
  /// in another's turn.
  class Turn {
   public:
    Turn(Turn&& other) noexcept;
    Turn& operator=(Turn&&) = delete;
    Turn(const Turn&) = delete;
    Turn& operator=(const Turn&) = delete;
    /// Any ticket of the group still without a receipt is told that it was not recorded.
    ~Turn();
    [[nodiscard]] bool leads() const { return queue_ != nullptr; }
    [[nodiscard]] const std::vector<Ticket*>& group() const { return group_; }

   private:
    friend class TurnQueue;
    Turn() = default;
    Turn(TurnQueue& queue, std::vector<Ticket*> group) : queue_(&queue), group_(std::move(group)) {}
    TurnQueue* queue_ = nullptr;
    std::vector<Ticket*> group_;
  };

  /// Waits until `ticket` leads or was answered.
  Turn wait(Ticket& ticket);

 private:
  void finish(const std::vector<Ticket*>& group);

  std::mutex mutex_;
  std::deque<Ticket*> waiting_;  ///< a group stays in front until its turn is over
};

}  // namespace benchwarden::book
