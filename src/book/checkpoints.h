#pragma once

#include <optional>
#include <vector>

#include "book/book.h"
#include "book/connection.h"

namespace benchwarden::book {

/// Keeps it as the next one, unless the same note of that size is kept already.
base::Status<> keep_checkpoint(Connection& connection, const KeptCheckpoint& checkpoint);

inline constexpr std::size_t kAllCheckpoints = INT64_MAX;
/// In the order they were kept; none in a book that was last opened before there were any.
base::Result<std::vector<KeptCheckpoint>> checkpoints_after(Connection& connection,
                                                            std::uint64_t number,
                                                            std::size_t limit);
/// Of the largest size the one kept last.
base::Result<std::optional<KeptCheckpoint>> last_checkpoint(Connection& connection);

}  // namespace benchwarden::book
