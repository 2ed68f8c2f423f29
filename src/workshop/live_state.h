#pragma once

#include <memory>
#include <mutex>
#include <shared_mutex>

#include "base/result.h"
#include "book/book.h"
#include "forms/catalog.h"
#include "tallies/state.h"

namespace benchwarden::workshop {

/// The tallies of the book as it stands, kept in step with it: never ahead, and caught up before a
/// writer is answered.
class LiveState {
 public:
  /// Starts from the snapshot when it belongs to this book and fold version, else refolds; then
  /// follows the book.
  static base::Result<std::unique_ptr<LiveState>> start(book::Book& book,
                                                        const forms::Catalog& catalog);
  LiveState(const LiveState&) = delete;
  LiveState& operator=(const LiveState&) = delete;
  ~LiveState() = default;

  /// A view that stays still while it is held. Hold it briefly.
  class View {
   public:
    const tallies::State& operator*() const { return *state_; }
    const tallies::State* operator->() const { return state_; }

   private:
    friend class LiveState;
    View(std::shared_mutex& mutex, const tallies::State& state) : lock_(mutex), state_(&state) {}
    std::shared_lock<std::shared_mutex> lock_;
    const tallies::State* state_;
  };
  [[nodiscard]] View view() const { return {mutex_, state_}; }

  /// Stores a snapshot beside the book, for a quick next start.
  base::Status<> keep();

 private:
  LiveState(book::Book& book, tallies::State state) : book_(book), state_(std::move(state)) {}
  book::Book& book_;
  mutable std::shared_mutex mutex_;
  tallies::State state_;
};

}  // namespace benchwarden::workshop
