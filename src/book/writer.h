#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "book/book.h"
#include "book/connection.h"
#include "book/last_head.h"
#include "book/merkle.h"
#include "book/planned_group.h"
#include "book/staged_attachments.h"
#include "book/turn_queue.h"

namespace benchwarden::book {

/// The one connection that writes to book.db, with the edge of the tree in memory. Whoever calls
/// it holds the turn.
class Writer {
 public:
  /// Migrates the schema and checks that the book goes on from where the last-head file left it.
  static base::Result<Writer> open(const std::filesystem::path& folder,
                                   const entries::Vocabulary& vocabulary, const base::Clock& clock);

  /// Commits the group and returns its new entries in book order, durable. Every ticket has its
  /// receipt then.
  std::vector<entries::Entry> commit(const std::vector<TurnQueue::Ticket*>& group);
  /// The same for a group of which all are recorded, as new entries, or none. The first that
  /// cannot be is the error.
  base::Result<std::vector<entries::Entry>> commit_whole(
      const std::vector<TurnQueue::Ticket*>& group);
  base::Status<> keep_attachment(const std::string& bytes);
  base::Status<> keep_checkpoint(const KeptCheckpoint& checkpoint);
  /// Of the attachments that wait for an entry; needs no turn.
  [[nodiscard]] StagedAttachments& staged() { return *staged_; }
  [[nodiscard]] TreeHead head() const { return {edge_.size(), edge_.root()}; }

 private:
  struct Failure {
    TurnQueue::Ticket* culprit = nullptr;  ///< nullptr: the whole group fails
    base::Error error;
  };
  Writer(Connection connection, LastHeadFile last_head, std::unique_ptr<StagedAttachments> staged,
         TreeEdge edge, const entries::Vocabulary& vocabulary, const base::Clock& clock)
      : connection_(std::move(connection)),
        last_head_(std::move(last_head)),
        staged_(std::move(staged)),
        edge_(std::move(edge)),
        vocabulary_(&vocabulary),
        clock_(&clock) {}

  base::Result<std::vector<entries::Entry>, Failure> try_commit(
      const std::vector<TurnQueue::Ticket*>& group);
  /// Commits what was planned in the transaction and answers its tickets.
  base::Result<std::vector<entries::Entry>, Failure> write(PlannedGroup& planned,
                                                           sqlite::Transaction& transaction);
  base::Status<> insert(const PlannedRow& row, const base::Sha256Digest* root);
  base::Status<> insert_mentions(const PlannedRow& row);
  base::Status<> take_over_attachments(const PlannedRow& row);

  Connection connection_;
  LastHeadFile last_head_;
  std::unique_ptr<StagedAttachments> staged_;
  TreeEdge edge_;
  const entries::Vocabulary* vocabulary_;
  const base::Clock* clock_;
};

}  // namespace benchwarden::book
