#include "workshop/export_book.h"

#include <set>
#include <utility>

#include "base/sha256.h"
#include "book/export_files.h"
#include "book/merkle.h"
#include "book/new_folder.h"
#include "book/read_book.h"
#include "workshop/export_checkpoints.h"
#include "workshop/export_readme.h"
#include "workshop/export_tables.h"
#include "workshop/proof_views.h"

namespace benchwarden::workshop {
namespace {

/// Writes the parts of one export into its folder.
class Exporter {
 public:
  Exporter(book::ReadBook& book, const book::NewFolder& folder, const Definitions& definitions)
      : book_(book), folder_(folder), definitions_(definitions) {}

  base::Status<> run() {
    for (const std::string_view name : {book::kExportedAttachments, book::kExportedTables}) {
      auto made = folder_.make(name);
      if (!made) return made;
    }
    auto entries = write_entries();
    if (!entries) return entries;
    auto attachments = write_attachments();
    if (!attachments) return attachments;
    auto checkpoints = write_checkpoints();
    if (!checkpoints) return checkpoints;
    return write_descriptions();
  }
  [[nodiscard]] std::size_t attachments() const { return attachments_.size(); }

 private:
  /// The leaves and the tables, and whether the leaves give the book's own root.
  base::Status<> write_entries() {
    ExportTables tables(folder_.path() / book::kExportedTables, definitions_.catalog);
    book::NewFile leaves(folder_.path() / book::kExportedEntries);
    book::TreeEdge edge;
    auto walked = book_.each([&](const entries::Entry& entry) {
      const std::string leaf = entries::write_leaf(entry);
      edge.append(book::hash_leaf(leaf));
      leaves.add(leaf + "\n");
      attachments_.insert(entry.content.attachments.begin(), entry.content.attachments.end());
      return tables.add(entry);
    });
    if (!walked) return walked;
    if (book::TreeHead{edge.size(), edge.root()} != book_.head()) {
      return base::Error{base::ErrorCode::kDamaged,
                         "the entries do not give the root the book ends with; run verify"};
    }
    auto finished = leaves.finish();
    return finished ? tables.finish() : finished;
  }

  [[nodiscard]] base::Status<> write(std::string_view name, std::string_view bytes) const {
    book::NewFile file(folder_.path() / name);
    file.add(bytes);
    return file.finish();
  }

  base::Status<> write_attachments() {
    for (const std::string& name : attachments_) {
      const auto digest = base::digest_from_hex(name);
      if (!digest) return digest.error();
      const auto bytes = book_.attachment(*digest);
      if (!bytes) return bytes.error();
      const std::string path = std::string(book::kExportedAttachments) + "/" + name;
      auto written = write(path, *bytes);
      if (!written) return written;
    }
    return base::Done{};
  }

  /// The signed ones, and the newest with its verifier key in files of their own, as tools for
  /// notes take them; nothing where none is signed.
  base::Status<> write_checkpoints() {
    const auto kept = book_.checkpoints();
    if (!kept) return kept.error();
    if (kept->empty()) return base::Done{};
    std::string lines;
    for (const book::KeptCheckpoint& one : *kept) lines += checkpoint_line(one);
    auto written = write(book::kExportedCheckpoints, lines);
    if (written) written = write(book::kExportedNote, kept->back().note);
    if (written) written = write(book::kExportedKey, kept->back().verifier_key + "\n");
    return written;
  }

  base::Status<> write_descriptions() {
    const std::string checkpoint = base::write_json(checkpoint_json(book_.head())) + "\n";
    const std::string readme = export_readme(definitions_.export_wording, definitions_.catalog);
    for (const auto& [name, text] :
         {std::pair(book::kExportedHead, book::exported_head(book_.head())),
          std::pair(book::kExportedCheckpoint, checkpoint),
          std::pair(book::kExportedReadme, readme)}) {
      auto written = write(name, text);
      if (!written) return written;
    }
    const auto digests = book::digests_below(folder_.path());
    if (!digests) return digests.error();
    return write(book::kExportedDigests, book::format_digests(*digests));
  }

  book::ReadBook& book_;
  const book::NewFolder& folder_;
  const Definitions& definitions_;
  std::set<std::string> attachments_;  ///< that entries name
};

}  // namespace

base::Result<Exported> export_book(const std::filesystem::path& from,
                                   const std::filesystem::path& to,
                                   const Definitions& definitions) {
  auto book = book::ReadBook::open(from, definitions.catalog);
  if (!book) return book.error();
  auto folder = book::NewFolder::begin(to, book::NewFolder::Place::kFree);
  if (!folder) return folder.error();
  Exporter exporter(*book, *folder, definitions);
  const auto written = exporter.run();
  if (!written) return written.error();
  const auto finished = folder->finish();
  if (!finished) return finished.error();
  const book::TreeHead head = book->head();
  return Exported{head.size, base::to_hex(head.root), exporter.attachments()};
}

}  // namespace benchwarden::workshop
