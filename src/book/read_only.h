#pragma once

#include <filesystem>

#include "base/result.h"
#include "book/connection.h"

namespace benchwarden::book {

/// Opens `file` for reading only, beside a process that writes it or where nobody can write. In a
/// folder that cannot be written a file is read as it is, unless a write-ahead log lies beside it:
/// kUnavailable then, because what stands in the log would be missed.
base::Result<Connection> open_read_only(const std::filesystem::path& file);

/// How many steps of its schema a file has been taken through.
base::Result<std::int64_t> schema_version(Connection& connection);

/// The book in `folder` in one state for all that is asked, however many entries others append
/// meanwhile; also one that an older program wrote. kNotFound: no book there; kConflict: a newer
/// program wrote it.
base::Result<Connection> open_book(const std::filesystem::path& folder);

}  // namespace benchwarden::book
