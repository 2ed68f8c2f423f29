#include "workshop/upkeep.h"

#include "base/sha256.h"
#include "book/verify.h"
#include "workshop/fold.h"

namespace benchwarden::workshop {

base::Result<Verified> verify_book(const std::filesystem::path& folder,
                                   const Definitions& definitions) {
  const auto report = book::verify(folder, definitions.catalog);
  if (!report) return report.error();
  Verified verified{report->head.size, base::to_hex(report->head.root), {}};
  for (const book::VerifyFault& fault : report->faults) {
    const std::string entry = fault.seq ? "entry " + std::to_string(*fault.seq) + ": " : "";
    verified.faults.push_back(entry + fault.what);
  }
  return verified;
}

base::Status<> accept_book_end(const std::filesystem::path& folder) {
  return book::accept_end(folder);
}

base::Result<Rebuilt> rebuild(const Ports& ports) {
  const auto anew = refold(ports.book, ports.definitions.catalog, {});
  if (!anew) return anew.error();
  const std::string bytes = anew->snapshot();
  const bool same = bytes == ports.live.view()->snapshot();
  const auto kept = ports.book.keep_snapshot({tallies::kFoldVersion, ports.book.head(), bytes});
  if (!kept) return kept.error();
  return Rebuilt{anew->size(), same};
}

}  // namespace benchwarden::workshop
