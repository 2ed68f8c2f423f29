#pragma once

#include <string>

#include "base/sha256.h"
#include "document/document.h"
#include "reports/wording.h"

namespace benchwarden::reports {

/// What an issued report is checked with, without us.
struct SealOfReport {
  std::uint64_t book_size = 0;
  base::Sha256Digest book_root{};
  std::string figures_digest;  ///< SHA-256 of its JSON (RFC 8785), in hex
  std::string verifier_key;
  std::string note;  ///< signed; holds size, root and that digest
};

/// Puts the beginning of the digest at the foot of every page, and at the end of the text a section
/// with all of it and the note as a code.
void add_seal(document::Document& document, const SealOfReport& seal, const ReportWording& wording);

}  // namespace benchwarden::reports
