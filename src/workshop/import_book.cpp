#include "workshop/import_book.h"

#include <utility>

#include "base/sha256.h"
#include "book/book.h"
#include "book/new_folder.h"
#include "workshop/chain.h"
#include "workshop/upkeep.h"
#include "workshop/verify_export.h"

namespace benchwarden::workshop {
namespace {

/// Appends checked leaves to an empty book, many in one commit.
class LeafAppender {
 public:
  LeafAppender(book::Book& book, const forms::Catalog& catalog) : book_(book), catalog_(catalog) {}

  base::Status<> take(std::string_view leaf) {
    constexpr std::size_t kGroupMax = 256;
    auto entry = entries::read_leaf(leaf, catalog_);
    if (!entry) return entry.error();
    // A correction is understood by entries before it, which have to be in the book by then.
    if (entry->content.corrects || waiting_.size() == kGroupMax) {
      auto flushed = flush();
      if (!flushed) return flushed;
    }
    auto subjects = subjects_of(book_, catalog_, entry->content, entry->seq);
    if (!subjects) return subjects.error();
    waiting_.push_back({std::move(entry->content), std::move(entry->signature),
                        *std::move(subjects), entry->recorded_at});
    return base::Done{};
  }

  base::Status<> flush() {
    const auto appended = book_.append_all(std::exchange(waiting_, {}));
    if (!appended) return appended.error();
    return base::Done{};
  }

 private:
  book::Book& book_;
  const forms::Catalog& catalog_;
  std::vector<book::Draft> waiting_;
};

base::Status<> write_book(const std::filesystem::path& from, const SealedExport& checked,
                          const std::filesystem::path& to, const Definitions& definitions,
                          const base::Clock& clock) {
  auto book = book::Book::open(to, definitions.catalog, clock);
  if (!book) return book.error();
  for (const std::string& name : checked.book.attachments) {
    const auto bytes = book::read_exported(from / book::kExportedAttachments / name);
    if (!bytes) return bytes.error();
    auto kept = (*book)->keep_attachment(*bytes);
    if (!kept) return kept;
  }
  LeafAppender appender(**book, definitions.catalog);
  auto appended = book::each_line(from, [&](std::uint64_t line, std::string_view leaf) {
    auto taken = appender.take(leaf);
    if (taken) return taken;
    return base::Status<>(base::Error{taken.error().code, std::string(book::kExportedEntries) +
                                                              ":" + std::to_string(line) + ": " +
                                                              taken.error().detail});
  });
  if (appended) appended = appender.flush();
  if (appended && (*book)->head() != checked.book.head) {
    return base::Error{base::ErrorCode::kDamaged, "the export changed while it was read"};
  }
  for (const book::KeptCheckpoint& one : checked.checkpoints) {
    if (appended) appended = (*book)->keep_checkpoint(one);
  }
  return appended;
}

}  // namespace

BookImportOutcome import_book(const std::filesystem::path& from, const std::filesystem::path& to,
                              const Definitions& definitions, const base::Clock& clock) {
  auto checked = check_sealed_export(from, definitions);
  if (!checked) return checked.error();
  auto folder = book::NewFolder::begin(to, book::NewFolder::Place::kFreeOrEmpty);
  if (!folder) return folder.error();
  const auto written = write_book(from, *checked, folder->path(), definitions, clock);
  if (!written) return written.error();
  auto verified = verify_book(folder->path(), definitions);
  if (!verified) return verified.error();
  if (!verified->faults.empty()) return std::move(verified->faults);
  const auto finished = folder->finish();
  if (!finished) return finished.error();
  return ImportedBook{verified->head.size, base::to_hex(verified->head.root),
                      checked->book.attachments.size()};
}

}  // namespace benchwarden::workshop
