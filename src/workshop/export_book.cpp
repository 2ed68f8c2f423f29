#include "workshop/export_book.h"

#include <fstream>
#include <set>
#include <utility>

#include "base/sha256.h"
#include "book/merkle.h"
#include "book/read_book.h"
#include "workshop/export_files.h"
#include "workshop/export_readme.h"
#include "workshop/export_tables.h"
#include "workshop/new_folder.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

/// Writes the parts of one export into its folder.
class Exporter {
 public:
  Exporter(book::ReadBook& book, const std::filesystem::path& folder,
           const Definitions& definitions)
      : book_(book), folder_(folder), definitions_(definitions) {}

  base::Status<> run() {
    std::error_code failure;
    for (const std::string_view name : {kExportedAttachments, kExportedTables}) {
      std::filesystem::create_directory(folder_ / name, failure);
    }
    auto entries = write_entries();
    if (!entries) return entries;
    auto attachments = write_attachments();
    if (!attachments) return attachments;
    return write_descriptions();
  }
  [[nodiscard]] std::size_t attachments() const { return attachments_.size(); }

 private:
  /// The leaves and the tables, and whether the leaves give the book's own root.
  base::Status<> write_entries() {
    auto tables = ExportTables::begin(folder_ / kExportedTables, definitions_.catalog);
    if (!tables) return tables.error();
    std::ofstream leaves(folder_ / kExportedEntries, std::ios::binary);
    book::TreeEdge edge;
    auto walked = book_.each([&](const entries::Entry& entry) {
      const std::string leaf = entries::write_leaf(entry);
      edge.append(book::hash_leaf(leaf));
      leaves << leaf << '\n';
      attachments_.insert(entry.content.attachments.begin(), entry.content.attachments.end());
      return tables->add(entry);
    });
    if (!walked) return walked;
    if (book::TreeHead{edge.size(), edge.root()} != book_.head()) {
      return base::Error{base::ErrorCode::kDamaged,
                         "the entries do not give the root the book ends with; run verify"};
    }
    leaves.close();
    if (!leaves) return base::Error{base::ErrorCode::kUnavailable, "entries cannot be written"};
    return tables->finish();
  }

  base::Status<> write_attachments() {
    for (const std::string& name : attachments_) {
      const auto digest = base::digest_from_hex(name);
      if (!digest) return digest.error();
      const auto bytes = book_.attachment(*digest);
      if (!bytes) return bytes.error();
      auto written = write_new_file(folder_ / kExportedAttachments / name, *bytes);
      if (!written) return written;
    }
    return base::Done{};
  }

  base::Status<> write_descriptions() {
    const std::string checkpoint = base::write_json(checkpoint_json(book_.head())) + "\n";
    const std::string readme = export_readme(definitions_.export_wording, definitions_.catalog);
    for (const auto& [name, text] :
         {std::pair(kExportedHead, exported_head(book_.head())),
          std::pair(kExportedCheckpoint, checkpoint), std::pair(kExportedReadme, readme)}) {
      auto written = write_new_file(folder_ / name, text);
      if (!written) return written;
    }
    const auto digests = digests_below(folder_);
    if (!digests) return digests.error();
    return write_new_file(folder_ / kExportedDigests, format_digests(*digests));
  }

  book::ReadBook& book_;
  const std::filesystem::path& folder_;
  const Definitions& definitions_;
  std::set<std::string> attachments_;  ///< that entries name
};

}  // namespace

base::Result<Exported> export_book(const std::filesystem::path& from,
                                   const std::filesystem::path& to,
                                   const Definitions& definitions) {
  std::error_code failure;
  if (std::filesystem::exists(to, failure)) {
    return base::Error{base::ErrorCode::kConflict,
                       to.string() + " is there already; a new folder is needed"};
  }
  auto book = book::ReadBook::open(from, definitions.catalog);
  if (!book) return book.error();
  auto folder = NewFolder::begin(to);
  if (!folder) return folder.error();
  Exporter exporter(*book, folder->path(), definitions);
  const auto written = exporter.run();
  if (!written) return written.error();
  const auto finished = folder->finish();
  if (!finished) return finished.error();
  const book::TreeHead head = book->head();
  return Exported{head.size, base::to_hex(head.root), exporter.attachments()};
}

}  // namespace benchwarden::workshop
