#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/timestamp.h"
#include "base/uuid.h"

namespace benchwarden::access {

/// A request that was refused whatever PIN was to come with it.
struct RefusedRequest {
  base::Instant at;
  std::string reason;       ///< host, origin, rate, role …
  std::string address;      ///< of the other end
  std::string person = {};  ///< of the session it came with; empty: nobody was asked for
};

/// Counts are kept by quarter hours, since a day begins at one of them in every zone.
base::Instant quarter_of(base::Instant at);

/// How often that happened in the quarter of an hour of `at`.
struct RefusedCount {
  base::Instant at;
  std::string reason;
  std::uint64_t times = 0;
};

/// How often each thing happened: sign-in, or the reason of a refusal.
using AccessCounts = std::map<std::string, std::uint64_t>;

/// What the log says of a while. The counts are of all that happened, the lines of what is kept.
struct AccessLog {
  AccessCounts counts;
  std::uint64_t lines = 0;
  std::string digest;  ///< SHA-256 of the lines, in hex
};

/// A change that the book was not told of yet. What it was about, as far as the book wants it.
struct UntoldChange {
  std::int64_t number = 0;
  base::Uuid entry;  ///< under which it is to be told
  base::Instant at;
  std::string by;
  std::string person;
  std::string what;
  std::optional<std::string> thing = {};
  std::optional<std::string> role = {};   ///< of a person added
  std::optional<std::string> scope = {};  ///< of a token or an inspector's access
  std::optional<base::Instant> until = {};
};

}  // namespace benchwarden::access
