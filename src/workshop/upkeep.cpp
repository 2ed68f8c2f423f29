#include "workshop/upkeep.h"

#include <optional>
#include <utility>

#include "base/sha256.h"
#include "book/persons.h"
#include "book/verify.h"
#include "workshop/chain.h"
#include "workshop/end_entry.h"
#include "workshop/fold.h"
#include "workshop/named_head.h"
#include "workshop/verify_seals.h"

namespace benchwarden::workshop {

namespace {

/// The tallies folded from the first entry on while a book is read, and the stored ones held to
/// them where they stand.
class Refold {
 public:
  Refold(std::optional<book::Book::Snapshot> stored, const forms::Catalog& catalog)
      : stored_(std::move(stored)), catalog_(catalog) {
    if (stored_ && stored_->fold_version != tallies::kFoldVersion) stored_.reset();
    if (stored_ && stored_->head.size == 0) compare();
  }

  base::Status<> take(const entries::Entry& entry, const book::EntrySource& book) {
    // Where entries are left out, that is a fault already named.
    broken_ = broken_ || entry.seq != state_.size() + 1;
    if (broken_) return base::Done{};
    auto folded = fold(state_, entry, book, catalog_);
    broken_ = !folded.ok();
    if (broken_ || !stored_ || stored_->head.size != state_.size()) return folded;
    const auto root = book.root_at(state_.size());
    if (root.ok() && *root == stored_->head.root) compare();
    return folded;
  }
  /// Whether stored tallies that a start would use say something else than the entries.
  [[nodiscard]] bool differs() const { return differs_; }
  /// Of the tallies after the last entry.
  [[nodiscard]] std::optional<base::Sha256Digest> digest() const {
    if (broken_) return std::nullopt;
    return base::sha256(state_.snapshot());
  }

 private:
  void compare() { differs_ = stored_->bytes != state_.snapshot(); }

  std::optional<book::Book::Snapshot> stored_;
  const forms::Catalog& catalog_;
  tallies::State state_;
  bool broken_ = false;  ///< an entry could not be folded, and so none after it
  bool differs_ = false;
};

}  // namespace

base::Result<Verified> verify_book(const std::filesystem::path& folder,
                                   const Definitions& definitions) {
  // Before the book: it can only have grown by the time that is read.
  return verify_book(folder, definitions, book::stored_snapshot(folder));
}

base::Result<Verified> verify_book(const std::filesystem::path& folder,
                                   const Definitions& definitions,
                                   std::optional<book::Book::Snapshot> stored) {
  const forms::Catalog& catalog = definitions.catalog;
  Refold refold(std::move(stored), catalog);
  std::vector<std::string> notes;
  std::vector<std::string> named;
  std::vector<SignedFigures> reports;
  book::Meaning meaning;
  meaning.subjects_of = [&](const entries::Entry& entry, const book::EntrySource& book) {
    return subjects_of(book, catalog, entry.content, entry.seq);
  };
  meaning.follow = [&](const entries::Entry& entry, const book::EntrySource& book) {
    if (auto told = told_of_end(entry)) notes.push_back(*std::move(told));
    if (const auto fault = fault_of_named_head(entry, book)) {
      named.push_back("entry " + std::to_string(entry.seq) + ": " + *fault);
    }
    if (auto report = signed_figures_of(entry)) reports.push_back(*std::move(report));
    return refold.take(entry, book);
  };
  const auto report = book::verify(folder, catalog, meaning);
  if (!report) return report.error();
  Verified verified{report->head, {}, std::move(notes), refold.digest()};
  for (const book::VerifyFault& fault : report->faults) {
    const std::string entry = fault.seq ? "entry " + std::to_string(*fault.seq) + ": " : "";
    verified.faults.push_back(entry + fault.what);
  }
  verified.faults.insert(verified.faults.end(), named.begin(), named.end());
  const auto tree = book::stored_checkpoints(folder);
  if (!tree) return tree.error();
  const SealsFound seals = check_seals(*tree, report->head.size, reports);
  verified.faults.insert(verified.faults.end(), seals.faults.begin(), seals.faults.end());
  verified.notes.insert(verified.notes.end(), seals.notes.begin(), seals.notes.end());
  if (refold.differs()) {
    verified.faults.emplace_back(
        "the stored tallies (derived.db) are not what the entries of the book give");
  }
  return verified;
}

base::Result<std::vector<std::string>> persons_in_book(const std::filesystem::path& folder) {
  return book::persons_in(folder);
}

base::Status<> accept_book_end(const std::filesystem::path& folder, const Definitions& definitions,
                               const base::Clock& clock) {
  return book::accept_end(folder, definitions.catalog, clock, [&](const book::OddEnd& end) {
    return end_entry(end, definitions.catalog, clock.now());
  });
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
