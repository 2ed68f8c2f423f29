#pragma once

#include <atomic>
#include <cstdint>
#include <memory>
#include <mutex>
#include <shared_mutex>

#include "base/result.h"
#include "book/book.h"
#include "forms/catalog.h"
#include "tallies/state.h"

namespace benchwarden::workshop {

/// The tallies of the book as it stands, kept in step with it: never ahead, and caught up before a
/// writer is answered. Where an entry cannot be folded (the disk fails while what it corrects is
/// read), they stay what they were before it, entries after it are not folded either, and
/// `catch_up` has to be asked before anything is told from them.
class LiveState {
 public:
  /// Starts from the snapshot when it belongs to this book and fold version, else refolds; then
  /// follows the book.
  static base::Result<std::unique_ptr<LiveState>> start(book::Book& book,
                                                        const forms::Catalog& catalog);
  /// The same as it stands now, for what is made of several parts: it follows no book.
  [[nodiscard]] std::unique_ptr<LiveState> standing_still() const;
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
  /// The same as a copy that stays as it is however long it is held, and holds up nobody: for
  /// whatever takes longer than a lookup. All who ask between two entries get the same one.
  [[nodiscard]] std::shared_ptr<const tallies::State> still() const;

  /// Takes in the entries that could not be folded when they came; costs nothing when there are
  /// none. kUnavailable, saying which entry and why, while it still cannot.
  base::Status<> catch_up();

  /// Stores a snapshot beside the book, for a quick next start.
  base::Status<> keep();
  /// The same once the book has `entries` more than the newest snapshot; false: it has not.
  base::Result<bool> keep_after(std::uint64_t entries);

 private:
  LiveState(book::Book& book, const forms::Catalog& catalog, tallies::State state,
            std::uint64_t kept)
      : book_(book), catalog_(catalog), state_(std::move(state)), kept_(kept) {}
  void follow(const entries::Entry& entry);

  book::Book& book_;
  const forms::Catalog& catalog_;
  mutable std::shared_mutex mutex_;
  tallies::State state_;
  mutable std::mutex still_mutex_;  ///< taken after mutex_
  mutable std::shared_ptr<const tallies::State> still_;
  std::atomic<bool> behind_ = false;  ///< set under mutex_
  std::atomic<std::uint64_t> kept_;   ///< size of the book the newest snapshot stands for
};

}  // namespace benchwarden::workshop
