#pragma once

#include <optional>
#include <string>

#include "base/result.h"
#include "workshop/verify_claims.h"

namespace benchwarden::daemon {

/// A tree head typed off a page: both are given, or neither.
struct HeadWords {
  std::optional<std::string> size;  ///< digits, in threes or not
  std::string root;                 ///< hex of either case, or base64
};
/// kInvalid names the word and what is accepted.
base::Result<workshop::ClaimedHead> read_head_words(const HeadWords& words);

}  // namespace benchwarden::daemon
