#include "workshop/live_state.h"

#include <optional>
#include <string>
#include <utility>

#include "workshop/fold.h"

namespace benchwarden::workshop {
namespace {

/// The state of a snapshot that fits this program and this book. Anything else is dropped: a
/// snapshot is a convenience and is never repaired.
std::optional<tallies::State> usable_snapshot(const book::Book& book) {
  const auto snapshot = book.snapshot();
  if (!snapshot || snapshot->fold_version != tallies::kFoldVersion) return std::nullopt;
  const auto root = book.root_at(snapshot->head.size);
  if (!root || *root != snapshot->head.root) return std::nullopt;
  auto state = tallies::State::from_snapshot(snapshot->bytes);
  if (!state || state->size() != snapshot->head.size) return std::nullopt;
  return *std::move(state);
}

}  // namespace

base::Result<std::unique_ptr<LiveState>> LiveState::start(book::Book& book,
                                                          const forms::Catalog& catalog) {
  tallies::State state = usable_snapshot(book).value_or(tallies::State{});
  const std::uint64_t kept = state.size();
  const auto caught_up = book.each(state.size() + 1, [&](const entries::Entry& entry) {
    return fold(state, entry, book, catalog);
  });
  if (!caught_up) return caught_up.error();
  std::unique_ptr<LiveState> live(new LiveState(book, catalog, std::move(state), kept));
  book.follow([live = live.get()](const entries::Entry& entry) { live->follow(entry); });
  return live;
}

std::unique_ptr<LiveState> LiveState::standing_still() const {
  return std::unique_ptr<LiveState>(new LiveState(book_, catalog_, *still(), kept_));
}

std::shared_ptr<const tallies::State> LiveState::still() const {
  const std::shared_lock lock(mutex_);
  const std::lock_guard guard(still_mutex_);
  if (!still_ || still_->size() != state_.size()) {
    still_ = std::make_shared<const tallies::State>(state_);
  }
  return still_;
}

void LiveState::follow(const entries::Entry& entry) {
  const std::unique_lock lock(mutex_);
  // One that came while others were caught up may have been among them.
  if (behind_ || entry.seq <= state_.size()) return;
  behind_ = !fold(state_, entry, book_, catalog_).ok();
}

base::Status<> LiveState::catch_up() {
  if (!behind_) return base::Done{};
  const std::unique_lock lock(mutex_);
  while (behind_) {
    const auto caught_up = book_.each(state_.size() + 1, [&](const entries::Entry& entry) {
      return fold(state_, entry, book_, catalog_);
    });
    if (!caught_up) {
      return base::Error{base::ErrorCode::kUnavailable,
                         "the figures lack entry " + std::to_string(state_.size() + 1) + " (" +
                             caught_up.error().detail +
                             "); where this stays so, stop the daemon and run verify"};
    }
    // What was published since is still to come; what comes from now on is followed.
    behind_ = state_.size() < book_.head().size;
  }
  return base::Done{};
}

base::Status<> LiveState::keep() {
  const auto state = still();
  book::Book::Snapshot snapshot{tallies::kFoldVersion, {state->size(), {}}, state->snapshot()};
  const auto root = book_.root_at(snapshot.head.size);
  if (!root) return root.error();
  snapshot.head.root = *root;
  const auto kept = book_.keep_snapshot(snapshot);
  if (kept) kept_ = snapshot.head.size;
  return kept;
}

base::Result<bool> LiveState::keep_after(std::uint64_t entries) {
  if (view()->size() < kept_ + entries) return false;
  const auto kept = keep();
  if (!kept) return kept.error();
  return true;
}

}  // namespace benchwarden::workshop
