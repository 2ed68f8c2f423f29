#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/json.h"
#include "book/book.h"

namespace benchwarden::workshop {

/// {"number", "size", "signed_at", "verifier_key", "note"}
base::JsonObject kept_checkpoint_json(const book::KeptCheckpoint& checkpoint);

/// The same as a line of its own.
std::string checkpoint_line(const book::KeptCheckpoint& checkpoint);
/// Those of a whole file. kInvalid names the line.
base::Result<std::vector<book::KeptCheckpoint>> read_checkpoint_lines(std::string_view text);

}  // namespace benchwarden::workshop
