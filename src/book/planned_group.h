#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "book/book.h"
#include "book/connection.h"
#include "book/merkle.h"
#include "book/staged_attachments.h"
#include "book/turn_queue.h"

namespace benchwarden::book {

/// Longest leaf, name of a subject and attachment, in bytes; most subjects of one entry.
inline constexpr std::size_t kLeafBytesMax = 65'536;
inline constexpr std::size_t kSubjectBytesMax = 100;
inline constexpr std::size_t kSubjectsMax = 256;
inline constexpr std::size_t kAttachmentBytesMax = 16'777'216;

/// An entry ready to be inserted.
struct PlannedRow {
  TurnQueue::Ticket* ticket = nullptr;
  entries::Entry entry;
  std::string leaf;
  base::Sha256Digest leaf_hash{};
  std::string interior;
  std::vector<std::string> subjects;  ///< sorted, each once
};

/// What a group will write: its new entries, and the edge of the tree after them. Drafts that are
/// refused or already recorded get their receipts while planning; the others only by `settle`.
class PlannedGroup {
 public:
  PlannedGroup(Connection& connection, StagedAttachments& staged,
               const entries::Vocabulary& vocabulary, const base::Clock& clock, TreeEdge edge)
      : connection_(connection),
        staged_(staged),
        vocabulary_(vocabulary),
        clock_(clock),
        edge_(std::move(edge)) {}

  /// An error here is one of the disk and concerns the whole group.
  base::Status<> add(TurnQueue::Ticket& ticket);
  /// After the commit: answers the drafts that depend on it.
  void settle();

  [[nodiscard]] const std::vector<PlannedRow>& rows() const { return rows_; }
  [[nodiscard]] const TreeEdge& edge() const { return edge_; }

 private:
  struct Promise {
    TurnQueue::Ticket* ticket;
    Receipt receipt;
  };
  base::Result<bool> answer_if_stored(TurnQueue::Ticket& ticket);
  bool promise_if_planned(TurnQueue::Ticket& ticket);
  void plan(TurnQueue::Ticket& ticket);

  Connection& connection_;
  StagedAttachments& staged_;
  const entries::Vocabulary& vocabulary_;
  const base::Clock& clock_;
  TreeEdge edge_;
  std::vector<PlannedRow> rows_;
  std::map<base::Uuid, std::size_t> row_of_id_;
  std::vector<Promise> promises_;
};

/// SHA-256 over the subjects in byte order, each followed by a line feed: what a row says of its
/// mentions, so that a missing or an added one shows.
base::Sha256Digest hash_subjects(const std::vector<std::string>& sorted_subjects);

}  // namespace benchwarden::book
