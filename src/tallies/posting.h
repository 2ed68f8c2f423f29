#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/timestamp.h"
#include "entries/effect.h"

namespace benchwarden::tallies {

/// The paired device an entry came from, and its own number for it.
struct SentBy {
  std::string device;  ///< "" where it came from none
  std::optional<std::uint64_t> number;
};

/// An entry as the fold sees it: when, how sure, and what it does. No text, no person.
struct Posting {
  std::uint64_t seq = 0;
  base::Instant occurred_at;
  base::Instant recorded_at;
  bool person_verified = true;
  entries::Effects effects;
  SentBy sent_by{};
};

/// A correction or strike-out: what its target did until now, and what it does from now on
/// (nothing, when struck). Times and order in time are the target's.
struct Amendment {
  std::uint64_t seq = 0;  ///< of the correction
  base::Instant recorded_at;
  std::uint64_t target_seq = 0;
  base::Instant target_occurred_at;
  bool struck = false;
  entries::Effects before;
  entries::Effects after;
  bool person_verified = true;  ///< who corrects
  SentBy sent_by{};             ///< the correction
};

}  // namespace benchwarden::tallies
