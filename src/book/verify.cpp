#include "book/verify.h"

#include <utility>

#include "base/beside.h"
#include "book/checkpoints.h"
#include "book/connection.h"
#include "book/entry_checks.h"
#include "book/last_head.h"
#include "book/queries.h"
#include "book/read_only.h"
#include "book/schema.h"
#include "book/snapshot_file.h"
#include "book/stored_entries.h"
#include "book/stored_rows.h"
#include "book/stored_tree.h"

namespace benchwarden::book {
namespace {

base::Status<> check_named_attachments(Connection& connection, const entries::Entry& entry,
                                       FaultList& faults) {
  for (const std::string& name : entry.content.attachments) {
    const auto digest = base::digest_from_hex(name);
    if (!digest.ok()) {
      faults.add(entry.seq, "it names an attachment by no digest: " + name);
      continue;
    }
    auto kept = is_attachment_kept(connection, *digest);
    if (!kept.ok()) return kept.error();
    if (!*kept) faults.add(entry.seq, "its attachment " + name + " is missing");
  }
  return base::Done{};
}

/// An answer that could not be had from the disk ends the reading; any other error is a fault of
/// the entry it was asked about.
base::Status<> take(const base::Status<>& answered, std::uint64_t seq, FaultList& faults) {
  if (answered.ok() || answered.error().code == base::ErrorCode::kUnavailable) return answered;
  faults.add(seq, answered.error().detail);
  return base::Done{};
}

/// Holds an entry to what the forms and the tallies say of it.
base::Status<> check_meaning(const EntrySource& book, const Meaning& meaning,
                             const entries::Entry& entry, const StoredRow& row, FaultList& faults) {
  if (meaning.subjects_of) {
    const auto expected = meaning.subjects_of(entry, book);
    const bool recorded = row.subjects_hash == base::as_bytes(row.subjects_digest);
    if (expected.ok() && recorded && row.subjects != *expected) {
      faults.add(entry.seq, "the subject index does not name the things it is about");
    }
    if (!expected.ok()) {
      auto taken = take(expected.error(), entry.seq, faults);
      if (!taken.ok()) return taken;
    }
  }
  if (!meaning.follow) return base::Done{};
  return take(meaning.follow(entry, book), entry.seq, faults);
}

/// Holds one row to all that is known of its entry.
base::Status<> check_row(Connection& connection, const EntrySource& book, const Meaning& meaning,
                         const StoredRow& row, EntryChecks& checks, FaultList& faults) {
  const auto* entry = checks.check(row);
  if (entry == nullptr) return base::Done{};
  auto named = check_named_attachments(connection, *entry, faults);
  if (!named.ok() || checks.rests_on_doubt(*entry)) return named;
  return check_meaning(book, meaning, *entry, row, faults);
}

/// Two at a time: while the rows of one batch are held to the rest, the next is read beside.
base::Status<> check_entries(StoredRows& rows, Connection& connection, const EntrySource& book,
                             const Meaning& meaning, EntryChecks& checks, FaultList& faults) {
  const auto read_beside = [&] { return base::beside([&rows] { return rows.next(); }); };
  auto reading = read_beside();
  for (;;) {
    const RowBatch batch = reading.get();
    if (!batch.last) reading = read_beside();
    for (const StoredRow& row : batch.rows) {
      for (const VerifyFault& orphan : row.orphans) faults.add(orphan.seq, orphan.what);
      auto checked = check_row(connection, book, meaning, row, checks, faults);
      if (!checked.ok()) return checked;
    }
    for (const VerifyFault& orphan : batch.orphans) faults.add(orphan.seq, orphan.what);
    if (!batch.last) continue;
    faults.leave_out(batch.more_orphans);
    return batch.read;
  }
}

base::Status<> check_attachments(Connection& connection, FaultList& faults) {
  auto query = connection.statement("SELECT digest, bytes FROM attachment ORDER BY digest");
  if (!query.ok()) return query.error();
  for (;;) {
    auto row = (*query)->step();
    if (!row.ok()) return row.error();
    if (!*row) return base::Done{};
    const auto digest = digest_of_blob((*query)->blob(0));
    if (!digest.ok() || base::sha256((*query)->blob(1)) != *digest) {
      const std::string name = digest.ok() ? base::to_hex(*digest) : "with a broken digest";
      faults.add(std::nullopt, "attachment " + name + " does not match its digest");
    }
  }
}

/// Every table, index and trigger as text, one a line.
base::Result<std::vector<std::string>> schema_text(Connection& connection) {
  auto query = connection.statement(
      "SELECT type || ' ' || name || ': ' || coalesce(sql, '') FROM sqlite_schema ORDER BY 1");
  if (!query.ok()) return query.error();
  std::vector<std::string> lines;
  for (;;) {
    auto row = (*query)->step();
    if (!row.ok()) return row.error();
    if (!*row) return lines;
    lines.push_back((*query)->text(0));
  }
}

base::Status<> check_schema(Connection& connection, FaultList& faults) {
  auto model_database = sqlite::Database::open(":memory:", sqlite::Mode::kReadWriteCreate);
  if (!model_database.ok()) return model_database.error();
  const auto version = schema_version(connection);
  if (!version.ok()) return version.error();
  const auto& all = book_schema();
  auto migrated = sqlite::migrate(*model_database, {all.begin(), all.begin() + *version});
  if (!migrated.ok()) return migrated;
  Connection model(*std::move(model_database));
  auto expected = schema_text(model);
  auto found = schema_text(connection);
  if (!expected.ok()) return expected.error();
  if (!found.ok()) return found.error();
  if (*expected != *found) {
    faults.add(std::nullopt, "tables, indexes or triggers of the book were changed");
  }
  return base::Done{};
}

struct PagesChecked {
  std::vector<std::string> faults;
  base::Status<> read = base::Done{};
};

/// SQLite's own look at its pages and indexes: an index that leaves out a row would hide it.
PagesChecked check_pages(Connection& connection) {
  PagesChecked checked;
  auto query = connection.statement("PRAGMA integrity_check(5)");
  if (!query.ok()) return {{}, query.error()};
  for (;;) {
    auto row = (*query)->step();
    if (!row.ok()) checked.read = row.error();
    if (!row.ok() || !*row) return checked;
    const std::string line = (*query)->text(0);
    if (line != "ok") checked.faults.push_back("in the file itself: " + line);
  }
}

/// Damage that stops the reading is a fault of the book; anything else that stops it is not.
base::Status<> as_fault(const base::Status<>& read, std::optional<std::uint64_t> seq,
                        FaultList& faults) {
  if (read.ok() || read.error().code == base::ErrorCode::kUnavailable) return read;
  faults.add(seq, "cannot be read on: " + read.error().detail);
  return base::Done{};
}

}  // namespace

base::Result<VerifyReport> verify(const std::filesystem::path& folder,
                                  const entries::Vocabulary& vocabulary, const Meaning& meaning) {
  FaultList faults;
  // Before the book: what is appended in between makes the book newer than the record, not older.
  auto last = LastHeadFile::read(folder);
  if (!last.ok() && last.error().code == base::ErrorCode::kUnavailable) return last.error();
  // A connection for each that reads at once. That of the rows comes first: what the others see
  // of a book that grows meanwhile is the same or longer.
  auto of_rows = open_book(folder);
  if (!of_rows.ok()) return of_rows.error();
  auto connection = open_book(folder);
  if (!connection.ok()) return connection.error();
  auto of_pages = open_book(folder);
  if (!of_pages.ok()) return of_pages.error();
  auto pages = base::beside([&] { return check_pages(*of_pages); });
  EntryChecks checks(last.ok() ? *last : std::nullopt, faults);
  StoredRows rows(*of_rows, vocabulary);
  const StoredEntries book(*connection, vocabulary);
  auto read = check_entries(rows, *connection, book, meaning, checks, faults);
  const bool to_the_end = read.ok();
  read = as_fault(read, checks.next_seq(), faults);
  if (!read.ok()) return read.error();
  if (to_the_end) checks.finish();
  if (!last.ok()) {
    faults.add(std::nullopt, last.error().detail);
  } else if (!*last && checks.next_seq() > 1) {
    faults.add(std::nullopt,
               "the last-head file is missing: nobody can tell whether the end is cut");
  }
  for (auto* check : {check_attachments, check_schema}) {
    read = as_fault(check(*connection, faults), std::nullopt, faults);
    if (!read.ok()) return read.error();
  }
  const PagesChecked checked = pages.get();
  for (const std::string& fault : checked.faults) faults.add(std::nullopt, fault);
  read = as_fault(checked.read, std::nullopt, faults);
  if (!read.ok()) return read.error();
  return VerifyReport{checks.head(), faults.take()};
}

base::Result<CheckpointedTree> stored_checkpoints(const std::filesystem::path& folder) {
  auto connection = open_book(folder);
  if (!connection.ok()) return connection.error();
  auto kept = checkpoints_after(*connection, 0, kAllCheckpoints);
  if (!kept.ok()) return kept.error();
  CheckpointedTree tree;
  auto first = leaf_hash_of(*connection, 1);
  if (first.ok()) tree.first_leaf = *first;
  for (KeptCheckpoint& checkpoint : *kept) {
    auto edge = stored_edge(*connection, checkpoint.size);
    tree.roots.push_back(edge.ok() ? std::optional(edge->root()) : std::nullopt);
    tree.kept.push_back(std::move(checkpoint));
  }
  return tree;
}

base::Result<std::optional<base::Sha256Digest>> stored_root(const std::filesystem::path& folder,
                                                            std::uint64_t size) {
  auto connection = open_book(folder);
  if (!connection.ok()) return connection.error();
  const auto whole = stored_size(*connection);
  if (!whole.ok()) return whole.error();
  if (size > *whole) return std::optional<base::Sha256Digest>();
  const auto edge = stored_edge(*connection, size);
  if (!edge.ok()) return edge.error();
  return std::optional(edge->root());
}

std::optional<Book::Snapshot> stored_snapshot(const std::filesystem::path& folder) {
  return SnapshotFile::look(folder);
}

}  // namespace benchwarden::book
