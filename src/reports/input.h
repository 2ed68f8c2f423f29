#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/sha256.h"
#include "base/timestamp.h"
#include "base/zone.h"
#include "document/document.h"
#include "entries/entry.h"

namespace benchwarden::reports {

/// Person id -> name as people know it. An id that is not in it is printed as the id.
using Names = std::map<std::string, std::string, std::less<>>;

/// What the forms call kinds, fields and codes, filled in by the caller from their definitions.
/// Keys: "oil-drained", "oil-drained/volume_ml", "collection/loads/volume_ml",
/// "oil-drained/contamination/none". What is missing is printed as its own name.
struct FormTexts {
  std::map<std::string, std::string, std::less<>> titles;
};

/// The kind of entries about the register.
inline constexpr std::string_view kRegisterChange = "register-change";

/// One entry with everything that was said about it later.
struct RecordedEntry {
  entries::Entry entry;                     ///< as first recorded
  std::vector<entries::Entry> corrections;  ///< in order of the book
  entries::Fields effective;                ///< the fields after all corrections
  bool struck = false;
};

/// A rule pack in force.
struct PackStated {
  std::string id;
  std::string title;
  std::string edition;
  std::string digest;  ///< SHA-256 of its text, in hex
};

/// What every report stands on.
struct Basis {
  base::Zone zone;  ///< of the workshop; days and months are cut by it
  std::uint64_t book_size = 0;
  base::Sha256Digest book_root{};
  /// What happened by then counts, that moment included, and nothing later. Where the whole book is
  /// meant it lies after made_at when the clock of a sender runs ahead.
  base::Instant as_of;
  base::Instant made_at;  ///< when the last entry was recorded
  document::Standing standing = document::Standing::kForIssue;
  std::string report_id = {};          ///< "" for a preview
  std::vector<PackStated> packs = {};  ///< the uppermost last
};

}  // namespace benchwarden::reports
