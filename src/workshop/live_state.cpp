#include "workshop/live_state.h"

#include <cassert>
#include <optional>

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
  const auto caught_up = book.each(state.size() + 1, [&](const entries::Entry& entry) {
    return fold(state, entry, book, catalog);
  });
  if (!caught_up) return caught_up.error();
  std::unique_ptr<LiveState> live(new LiveState(book, std::move(state)));
  book.follow([live = live.get(), &book, &catalog](const entries::Entry& entry) {
    const std::unique_lock lock(live->mutex_);
    const auto folded = fold(live->state_, entry, book, catalog);
    assert(folded.ok());  // the entry was validated against the chain it extends
  });
  return live;
}

base::Status<> LiveState::keep() {
  const View held = view();
  const auto root = book_.root_at(held->size());
  if (!root) return root.error();
  return book_.keep_snapshot({tallies::kFoldVersion, {held->size(), *root}, held->snapshot()});
}

}  // namespace benchwarden::workshop
