#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/sha256.h"

namespace benchwarden::seal {

/// What shows one leaf to be in a tree, in a file of its own (C2SP tlog-proof, version 1).
struct TlogProof {
  std::string extra;  ///< what the author adds; here the leaf as it is hashed
  std::uint64_t index = 0;
  std::vector<base::Sha256Digest> path;
  std::string note;  ///< the signed checkpoint, as it stands in the file
};

std::string write_tlog_proof(const TlogProof& proof);
/// kInvalid names the line that cannot be read and what is needed there.
base::Result<TlogProof> parse_tlog_proof(std::string_view bytes);

}  // namespace benchwarden::seal
