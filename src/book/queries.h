#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/sha256.h"
#include "book/book.h"
#include "book/connection.h"

namespace benchwarden::book {

/// Readings of one stored fact. kNotFound when it is not there, kDamaged when it cannot be read or
/// does not match its hash.
base::Result<std::string> leaf_of(Connection& connection, std::uint64_t seq);
base::Result<std::string> leaf_of(Connection& connection, const base::Uuid& id);
base::Result<base::Sha256Digest> leaf_hash_of(Connection& connection, std::uint64_t seq);
base::Result<std::string> attachment_of(Connection& connection, const base::Sha256Digest& digest);
/// What can be said of it without reading it whole.
base::Result<Book::AttachmentLook> attachment_look(Connection& connection,
                                                   const base::Sha256Digest& digest);
base::Result<bool> is_attachment_kept(Connection& connection, const base::Sha256Digest& digest);

/// Damage on the disk shows here, and not in what somebody reads.
base::Error unlike_its_hash(std::uint64_t seq);

/// Leaves in book order.
base::Result<std::vector<std::string>> leaves_correcting(Connection& connection,
                                                         const base::Uuid& id);
base::Result<std::vector<std::string>> leaves_from(Connection& connection, std::uint64_t from_seq,
                                                   std::size_t limit);
base::Result<std::vector<std::string>> leaves_selected(Connection& connection,
                                                       const Selection& selection);

}  // namespace benchwarden::book
