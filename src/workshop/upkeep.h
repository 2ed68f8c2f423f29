#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "base/sha256.h"
#include "book/verify.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

struct Verified {
  book::TreeHead head;
  std::vector<std::string> faults;  ///< each names the first bad entry where there is one
  std::vector<std::string> notes;   ///< what a reader of the book has to know, and is no fault
  std::optional<base::Sha256Digest> tallies =
      std::nullopt;  ///< of what the entries fold to; none where broken
};
/// Checks every stored byte of the book in `folder`, holds its subject index to what the forms say
/// and the stored tallies to what its entries fold to; changes nothing. Stored tallies that would
/// not be used at a start (none, of another fold version or another book) are no fault.
base::Result<Verified> verify_book(const std::filesystem::path& folder,
                                   const Definitions& definitions);
/// The same of a copy, held to tallies `stored` elsewhere, where there are some.
base::Result<Verified> verify_book(const std::filesystem::path& folder,
                                   const Definitions& definitions,
                                   std::optional<book::Book::Snapshot> stored);

/// The ids of the persons who signed entries of the book in `folder`; nobody where there is none.
base::Result<std::vector<std::string>> persons_in_book(const std::filesystem::path& folder);

/// Takes the end of the book as it stands, after a person has looked at what verify found, and
/// records that as an entry. Errors as book::accept_end.
base::Status<> accept_book_end(const std::filesystem::path& folder, const Definitions& definitions,
                               const base::Clock& clock);

struct Rebuilt {
  std::uint64_t entries = 0;
  bool same = false;  ///< the tallies kept so far were equal, byte for byte
};
/// Folds the book anew from its first entry, compares with the tallies in use and stores the new
/// ones.
base::Result<Rebuilt> rebuild(const Ports& ports);

}  // namespace benchwarden::workshop
