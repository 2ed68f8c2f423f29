#pragma once

#include <algorithm>
#include <cstdint>

#include "tallies/timeline.h"

namespace benchwarden::tallies {

/// The level after `event` when it was `before` it.
inline std::int64_t level_after(const Event& event, std::int64_t before) {
  switch (event.kind) {
    case EventKind::kAdded:
    case EventKind::kMovedIn:
      return before + event.amount;
    case EventKind::kMovedOut:
    case EventKind::kTaken:
    case EventKind::kEmptied:
      return before - event.amount;
    case EventKind::kRead:
    case EventKind::kPlaced:
    case EventKind::kSealed:
      break;
  }
  return before;
}

/// All that is in it; of a log below zero nothing.
inline std::int64_t whole_of(std::int64_t level) {
  return std::clamp(level, std::int64_t{0}, kAmountMax);
}

/// An event whose amount is all that was in the container before it.
inline bool takes_whole(const Event& event) {
  return event.whole && event.acts &&
         (event.kind == EventKind::kMovedOut || event.kind == EventKind::kTaken);
}

}  // namespace benchwarden::tallies
