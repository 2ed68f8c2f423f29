#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/sha256.h"

namespace benchwarden::seal {

/// The text of a note about a tree (C2SP tlog-checkpoint): whose tree, how many leaves, its root,
/// a line each, and whatever further lines its author adds.
struct Checkpoint {
  std::string origin;
  std::uint64_t size = 0;
  base::Sha256Digest root{};
  std::vector<std::string> extensions = {};  ///< none of them empty
  friend bool operator==(const Checkpoint&, const Checkpoint&) = default;
};

std::string write_checkpoint(const Checkpoint& checkpoint);
/// kInvalid names the line that cannot be read and what is needed there.
base::Result<Checkpoint> parse_checkpoint(std::string_view text);

}  // namespace benchwarden::seal
