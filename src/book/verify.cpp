#include "book/verify.h"

#include <utility>

#include "book/checkpoints.h"
#include "book/connection.h"
#include "book/entry_checks.h"
#include "book/last_head.h"
#include "book/planned_group.h"
#include "book/queries.h"
#include "book/read_only.h"
#include "book/schema.h"
#include "book/snapshot_file.h"
#include "book/stored_entries.h"
#include "book/stored_tree.h"

namespace benchwarden::book {
namespace {

/// Rows of `mention` in the order of their entries, taken along with these.
class Mentions {
 public:
  explicit Mentions(StatementInUse query) : query_(std::move(query)) {}

  base::Status<> advance() {
    auto row = query_->step();
    if (!row.ok()) return row.error();
    waiting_ = *row;
    if (waiting_) seq_ = query_->integer(0);
    return base::Done{};
  }
  /// Those of entry `seq`; any before it belong to no entry.
  base::Result<std::vector<std::string>> take(std::int64_t seq, FaultList& faults) {
    std::vector<std::string> subjects;
    while (waiting_ && seq_ <= seq) {
      if (seq_ == seq) {
        subjects.push_back(query_->text(1));
      } else {
        orphan(faults);
      }
      auto advanced = advance();
      if (!advanced.ok()) return advanced.error();
    }
    return subjects;
  }
  base::Status<> finish(FaultList& faults) {
    while (waiting_) {
      orphan(faults);
      auto advanced = advance();
      if (!advanced.ok()) return advanced;
    }
    return base::Done{};
  }

 private:
  void orphan(FaultList& faults) {
    faults.add(static_cast<std::uint64_t>(seq_),
               "the subject index has " + query_->text(1) + " in an entry that is not there");
  }
  StatementInUse query_;
  bool waiting_ = false;
  std::int64_t seq_ = 0;
};

StoredRow read_row(sqlite::Statement& query) {
  StoredRow row;
  row.seq = query.integer(0);
  row.id = query.blob(1);
  row.kind = query.text(2);
  row.occurred_at_ms = query.integer(3);
  if (!query.is_null(4)) row.corrects = query.blob(4);
  row.subjects_hash = query.blob(5);
  row.leaf_hash = query.blob(6);
  row.interior = query.blob(7);
  if (!query.is_null(8)) row.root = query.blob(8);
  row.leaf = query.blob(9);
  return row;
}

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
    const bool recorded = row.subjects_hash == base::as_bytes(hash_subjects(row.subjects));
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

base::Status<> check_entries(Connection& connection, const EntrySource& book,
                             const Meaning& meaning, EntryChecks& checks, FaultList& faults) {
  auto mention_query =
      connection.statement("SELECT seq, subject FROM mention ORDER BY seq, subject");
  if (!mention_query.ok()) return mention_query.error();
  Mentions mentions(*std::move(mention_query));
  auto advanced = mentions.advance();
  if (!advanced.ok()) return advanced;
  auto query = connection.statement(
      "SELECT seq, id, kind, occurred_at_ms, corrects, subjects_hash, leaf_hash, interior, root, "
      "leaf FROM entry NOT INDEXED ORDER BY seq");
  if (!query.ok()) return query.error();
  for (;;) {
    auto row = (*query)->step();
    if (!row.ok()) return row.error();
    if (!*row) return mentions.finish(faults);
    StoredRow stored = read_row(**query);
    auto subjects = mentions.take(stored.seq, faults);
    if (!subjects.ok()) return subjects.error();
    stored.subjects = *std::move(subjects);
    const auto entry = checks.check(stored);
    if (!entry) continue;
    auto named = check_named_attachments(connection, *entry, faults);
    if (!named.ok()) return named;
    if (checks.rests_on_doubt(*entry)) continue;
    auto meant = check_meaning(book, meaning, *entry, stored, faults);
    if (!meant.ok()) return meant;
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

/// SQLite's own look at its pages and indexes: an index that leaves out a row would hide it.
base::Status<> check_pages(Connection& connection, FaultList& faults) {
  auto query = connection.statement("PRAGMA integrity_check(5)");
  if (!query.ok()) return query.error();
  for (;;) {
    auto row = (*query)->step();
    if (!row.ok()) return row.error();
    if (!*row) return base::Done{};
    const std::string line = (*query)->text(0);
    if (line != "ok") faults.add(std::nullopt, "in the file itself: " + line);
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
  auto connection = open_book(folder);
  if (!connection.ok()) return connection.error();
  EntryChecks checks(vocabulary, last.ok() ? *last : std::nullopt, faults);
  const StoredEntries book(*connection, vocabulary);
  auto read = check_entries(*connection, book, meaning, checks, faults);
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
  for (auto* check : {check_attachments, check_schema, check_pages}) {
    read = as_fault(check(*connection, faults), std::nullopt, faults);
    if (!read.ok()) return read.error();
  }
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
