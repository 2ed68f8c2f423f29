#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "tallies/posting.h"
#include "tallies/timeline.h"

namespace benchwarden::tallies {

/// One container of the usual register as a person with a pencil would keep it.
struct PlainContainer {
  std::int64_t level = 0;
  std::optional<base::Instant> oldest;
  bool sealed = false;
  std::optional<Reading> reading;
  std::int64_t arisen = 0;
};
using PlainContainers = std::map<std::string, PlainContainer>;

/// What the postings with occurred_at < until add up to: sorted by time, then played one by one,
/// from nothing. Shares no code with the fold, and knows the containers of `usual_register` only.
PlainContainers play(std::vector<Posting> postings, base::Instant until);

}  // namespace benchwarden::tallies
