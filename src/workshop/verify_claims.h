#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "entries/leaf.h"
#include "seal/verifier_key.h"
#include "workshop/upkeep.h"

namespace benchwarden::workshop {

/// What came of a check, in whole sentences.
struct Shown {
  std::vector<std::string> shown;
  std::vector<std::string> not_shown;
  std::vector<std::string> faults;  ///< then nothing is shown
};

/// A head somebody has from elsewhere: off a printed page, or a signed note.
struct ClaimedHead {
  std::uint64_t size = 0;
  base::Sha256Digest root{};
  std::optional<std::string> note;       ///< size and root are read from it
  std::optional<seal::VerifierKey> key;  ///< none: one the book says it signed with
};
/// Whether the book in `folder`, of which every byte is checked, begins with what that head stood
/// for. Errors as verify_book; kInvalid: the note is none.
base::Result<Shown> verify_head(const std::filesystem::path& folder, const Definitions& definitions,
                                const ClaimedHead& claimed);

/// Whether this very file was issued as a report, by which entry, and with a key whether that
/// signed the book with the entry in it. Errors as verify_book.
base::Result<Shown> verify_report_file(const std::filesystem::path& folder,
                                       const Definitions& definitions, std::string_view bytes,
                                       const std::optional<seal::VerifierKey>& key);

/// Whether the file of one entry's proof holds, alone. What is in it is told only where it is the
/// leaf of an entry. kInvalid: it is none.
base::Result<Shown> verify_entry_proof(std::string_view bytes,
                                       const std::optional<seal::VerifierKey>& key,
                                       const entries::Vocabulary& vocabulary);

}  // namespace benchwarden::workshop
