#include "book/writer.h"

#include <algorithm>
#include <cassert>
#include <system_error>
#include <utility>

#include "book/checkpoints.h"
#include "book/queries.h"
#include "book/schema.h"
#include "book/stored_tree.h"

namespace benchwarden::book {
namespace {

/// The file of the last head: made for a new book, checked against one that has entries.
base::Result<LastHeadFile> take_up(const std::filesystem::path& folder, Connection& connection,
                                   const TreeEdge& edge) {
  auto last = LastHeadFile::read(folder);
  if (!last.ok() && last.error().code == base::ErrorCode::kUnavailable) return last.error();
  const bool usable = last.ok() && last->has_value();
  if (usable) {
    auto continues = check_continues(connection, **last);
    if (!continues.ok()) return continues.error();
  } else if (edge.size() > 0) {
    return base::Error{base::ErrorCode::kDamaged,
                       "head.txt is missing or cannot be read, so that nobody can tell whether "
                       "entries were cut off the end"};
  }
  if (!usable || (*last)->size != edge.size()) {
    auto created = LastHeadFile::create(folder, {edge.size(), edge.root()});
    if (!created.ok()) return created.error();
  }
  return LastHeadFile::open(folder);
}

/// Before SQLite sees the folder: in place of a book that is gone it would make an empty one, and
/// drop the log beside it, which may hold the newest entries.
base::Status<> must_not_be_gone(const std::filesystem::path& folder) {
  const std::filesystem::path file = folder / "book.db";
  std::error_code failure;
  const auto bytes = std::filesystem::file_size(file, failure);
  const bool is_gone = failure ? failure == std::errc::no_such_file_or_directory : bytes == 0;
  if (!is_gone) return base::Done{};
  const auto last = LastHeadFile::read(folder);
  if (!last.ok()) return last.error();
  if (!*last || (*last)->size == 0) return base::Done{};
  return base::Error{base::ErrorCode::kDamaged,
                     file.string() + " is missing or empty, but entry " +
                         std::to_string((*last)->size) +
                         " had been recorded: put it back, with book.db-wal beside it where there "
                         "is one"};
}

/// The attachments that entries in the book name, and that need not wait any more.
std::vector<base::Sha256Digest> taken_over(const std::vector<entries::Entry>& recorded) {
  std::vector<base::Sha256Digest> digests;
  for (const entries::Entry& entry : recorded) {
    for (const std::string& name : entry.content.attachments) {
      const auto digest = base::digest_from_hex(name);
      if (digest.ok()) digests.push_back(*digest);
    }
  }
  return digests;
}

}  // namespace

base::Result<Writer> Writer::open(const std::filesystem::path& folder,
                                  const entries::Vocabulary& vocabulary, const base::Clock& clock) {
  const auto there = must_not_be_gone(folder);
  if (!there.ok()) return there.error();
  auto database =
      sqlite::Database::open((folder / "book.db").string(), sqlite::Mode::kReadWriteCreate);
  if (!database.ok()) return database.error();
  auto migrated = sqlite::migrate(*database, book_schema());
  if (!migrated.ok()) return migrated.error();
  Connection connection(*std::move(database));
  auto edge = checked_edge(connection);
  if (!edge.ok()) return edge.error();
  auto last_head = take_up(folder, connection, *edge);
  if (!last_head.ok()) return last_head.error();
  auto staged = StagedAttachments::open(folder, clock);
  if (!staged.ok()) return staged.error();
  return Writer(std::move(connection), *std::move(last_head), *std::move(staged), *std::move(edge),
                vocabulary, clock);
}

std::vector<entries::Entry> Writer::commit(const std::vector<TurnQueue::Ticket*>& group) {
  std::vector<TurnQueue::Ticket*> rest = group;
  while (!rest.empty()) {
    auto committed = try_commit(rest);
    if (committed.ok()) return *std::move(committed);
    const Failure& failure = committed.error();
    if (failure.culprit == nullptr) {
      for (TurnQueue::Ticket* ticket : rest) ticket->receipt = failure.error;
      return {};
    }
    // Nothing was committed; the group goes again without the one that cannot be stored.
    failure.culprit->receipt = failure.error;
    rest.erase(std::remove(rest.begin(), rest.end(), failure.culprit), rest.end());
  }
  return {};
}

base::Result<std::vector<entries::Entry>, Writer::Failure> Writer::try_commit(
    const std::vector<TurnQueue::Ticket*>& group) {
  // Begun before anything is read, so that the locks of the file are taken once for a group.
  auto transaction = sqlite::Transaction::begin(connection_.database());
  if (!transaction.ok()) return Failure{nullptr, transaction.error()};
  PlannedGroup planned(connection_, *staged_, *vocabulary_, *clock_, edge_);
  for (TurnQueue::Ticket* ticket : group) {
    auto added = planned.add(*ticket);
    if (!added.ok()) return Failure{nullptr, added.error()};
  }
  return write(planned, *transaction);
}

base::Result<std::vector<entries::Entry>> Writer::commit_whole(
    const std::vector<TurnQueue::Ticket*>& group) {
  auto transaction = sqlite::Transaction::begin(connection_.database());
  if (!transaction.ok()) return transaction.error();
  PlannedGroup planned(connection_, *staged_, *vocabulary_, *clock_, edge_);
  for (TurnQueue::Ticket* ticket : group) {
    auto added = planned.add(*ticket);
    if (!added.ok()) return added.error();
    if (ticket->receipt && !ticket->receipt->ok()) return ticket->receipt->error();
  }
  if (planned.rows().size() != group.size()) {
    return base::Error{base::ErrorCode::kConflict,
                       "an entry of the group is in the book already, or stands in it twice"};
  }
  auto recorded = write(planned, *transaction);
  if (!recorded.ok()) return recorded.error().error;
  return *std::move(recorded);
}

base::Result<std::vector<entries::Entry>, Writer::Failure> Writer::write(
    PlannedGroup& planned, sqlite::Transaction& transaction) {
  const base::Sha256Digest root = planned.edge().root();
  std::vector<entries::Entry> recorded;
  if (!planned.rows().empty()) {
    for (const PlannedRow& row : planned.rows()) {
      const bool last = &row == &planned.rows().back();
      auto inserted = insert(row, last ? &root : nullptr);
      if (!inserted.ok()) {
        const bool passing = inserted.error().code == base::ErrorCode::kUnavailable;
        return Failure{passing ? nullptr : row.ticket, inserted.error()};
      }
      recorded.push_back(row.entry);
    }
    auto committed = transaction.commit();
    if (!committed.ok()) return Failure{nullptr, committed.error()};
    edge_ = planned.edge();
    // The entries are durable whatever happens to this file; an older record in it is no fault.
    static_cast<void>(last_head_.write({edge_.size(), root}).ok());
    for (const base::Sha256Digest& digest : taken_over(recorded)) staged_->drop(digest);
  }
  planned.settle();
  return recorded;
}

base::Status<> Writer::insert(const PlannedRow& row, const base::Sha256Digest* root) {
  auto insertion = connection_.statement(
      "INSERT INTO entry (seq, id, kind, occurred_at_ms, corrects, subjects_hash, leaf_hash, "
      "interior, root, leaf) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  if (!insertion.ok()) return insertion.error();
  const entries::Content& content = row.entry.content;
  sqlite::Statement& statement = **insertion;
  statement.bind(1, static_cast<std::int64_t>(row.entry.seq))
      .bind_blob(2, bytes_of(content.id))
      .bind(3, std::string_view(content.kind))
      .bind(4, content.occurred_at.instant.ms);
  if (content.corrects) statement.bind_blob(5, bytes_of(*content.corrects));
  statement.bind_blob(6, base::as_bytes(hash_subjects(row.subjects)))
      .bind_blob(7, base::as_bytes(row.leaf_hash))
      .bind_blob(8, row.interior);
  if (root != nullptr) statement.bind_blob(9, base::as_bytes(*root));
  statement.bind_blob(10, row.leaf);
  auto inserted = statement.run();
  if (!inserted.ok()) return inserted;
  inserted = insert_mentions(row);
  if (!inserted.ok()) return inserted;
  return take_over_attachments(row);
}

base::Status<> Writer::insert_mentions(const PlannedRow& row) {
  auto insertion = connection_.statement("INSERT INTO mention (subject, seq) VALUES (?, ?)");
  if (!insertion.ok()) return insertion.error();
  for (const std::string& subject : row.subjects) {
    auto inserted = (*insertion)
                        ->bind(1, std::string_view(subject))
                        .bind(2, static_cast<std::int64_t>(row.entry.seq))
                        .run();
    if (!inserted.ok()) return inserted;
  }
  return base::Done{};
}

base::Status<> Writer::take_over_attachments(const PlannedRow& row) {
  for (const std::string& name : row.entry.content.attachments) {
    const auto digest = base::digest_from_hex(name);
    if (!digest.ok()) return digest.error();
    auto kept = is_attachment_kept(connection_, *digest);
    if (!kept.ok()) return kept.error();
    if (*kept) continue;
    // One at a time, so that a group of many takes the memory of one.
    auto bytes = staged_->read(*digest);
    if (!bytes.ok()) return bytes.error();
    auto inserted = keep_attachment(*bytes);
    if (!inserted.ok()) return inserted;
  }
  return base::Done{};
}

base::Status<> Writer::keep_attachment(const std::string& bytes) {
  if (bytes.size() > kAttachmentBytesMax) {
    return base::Error{base::ErrorCode::kInvalid, "an attachment is longer than 16 MiB"};
  }
  auto insertion = connection_.statement(
      "INSERT INTO attachment (digest, bytes) SELECT ?1, ?2 "
      "WHERE NOT EXISTS (SELECT 1 FROM attachment WHERE digest = ?1)");
  if (!insertion.ok()) return insertion.error();
  return (*insertion)->bind_blob(1, base::as_bytes(base::sha256(bytes))).bind_blob(2, bytes).run();
}

base::Status<> Writer::keep_checkpoint(const KeptCheckpoint& checkpoint) {
  return book::keep_checkpoint(connection_, checkpoint);
}

}  // namespace benchwarden::book
