#include "book/stored_rows.h"

#include <algorithm>
#include <utility>

#include "book/entry_checks.h"
#include "book/merkle.h"
#include "book/planned_group.h"

namespace benchwarden::book {
namespace {

// So many that handing them over costs nothing beside them, so few that memory stays small also
// where leaves are long.
constexpr std::size_t kBatchRowsMax = 256;
constexpr std::size_t kBatchLeafBytesMax = 4'194'304;

/// All but the leaf.
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
  return row;
}

}  // namespace

RowBatch StoredRows::next() {
  RowBatch batch;
  const auto begun = rows_ ? base::Status<>(base::Done{}) : begin();
  const auto more = begun.ok() ? fill(batch) : base::Result<bool>(begun.error());
  batch.last = !more.ok() || !*more;
  if (!more.ok()) batch.read = more.error();
  if (more.ok() && batch.last) batch.read = take_orphans(batch.orphans);
  batch.more_orphans = orphans_ - std::min(orphans_, FaultList::kFaultsMax);
  return batch;
}

base::Status<> StoredRows::begin() {
  auto mentions = connection_.statement("SELECT seq, subject FROM mention ORDER BY seq, subject");
  if (!mentions.ok()) return mentions.error();
  mentions_.emplace(*std::move(mentions));
  auto advanced = advance_mentions();
  if (!advanced.ok()) return advanced;
  auto rows = connection_.statement(
      "SELECT seq, id, kind, occurred_at_ms, corrects, subjects_hash, leaf_hash, interior, root, "
      "leaf FROM entry NOT INDEXED ORDER BY seq");
  if (!rows.ok()) return rows.error();
  rows_.emplace(*std::move(rows));
  return base::Done{};
}

base::Result<bool> StoredRows::fill(RowBatch& batch) {
  std::size_t leaf_bytes = 0;
  while (batch.rows.size() < kBatchRowsMax && leaf_bytes < kBatchLeafBytesMax) {
    const auto stepped = (*rows_)->step();
    if (!stepped.ok() || !*stepped) return stepped;
    StoredRow row = read_row(**rows_);
    const auto taken = take_mentions(row);
    if (!taken.ok()) {
      batch.orphans = std::move(row.orphans);
      return taken.error();
    }
    const std::string leaf = (*rows_)->blob(9);
    leaf_bytes += leaf.size();
    row.leaf_digest = hash_leaf(leaf);
    row.subjects_digest = hash_subjects(row.subjects);
    if (row.leaf_hash == base::as_bytes(row.leaf_digest)) {
      row.entry = entries::read_leaf(leaf, vocabulary_);
    }
    batch.rows.push_back(std::move(row));
  }
  return true;
}

base::Status<> StoredRows::advance_mentions() {
  const auto row = (*mentions_)->step();
  if (!row.ok()) return row.error();
  mention_waits_ = *row;
  if (mention_waits_) mention_seq_ = (*mentions_)->integer(0);
  return base::Done{};
}

base::Status<> StoredRows::take_mentions(StoredRow& row) {
  while (mention_waits_ && mention_seq_ <= row.seq) {
    if (mention_seq_ == row.seq) {
      row.subjects.push_back((*mentions_)->text(1));
    } else {
      add_orphan(row.orphans);
    }
    const auto advanced = advance_mentions();
    if (!advanced.ok()) return advanced;
  }
  return base::Done{};
}

base::Status<> StoredRows::take_orphans(std::vector<VerifyFault>& orphans) {
  while (mention_waits_) {
    add_orphan(orphans);
    const auto advanced = advance_mentions();
    if (!advanced.ok()) return advanced;
  }
  return base::Done{};
}

void StoredRows::add_orphan(std::vector<VerifyFault>& orphans) {
  if (++orphans_ > FaultList::kFaultsMax) return;
  orphans.push_back(
      {static_cast<std::uint64_t>(mention_seq_),
       "the subject index has " + (*mentions_)->text(1) + " in an entry that is not there"});
}

}  // namespace benchwarden::book
