#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/sha256.h"
#include "book/connection.h"
#include "book/verify.h"
#include "entries/leaf.h"

namespace benchwarden::book {

/// One row of table `entry`, as stored, its rows of table `mention`, and what follows from these
/// bytes alone; of the leaf only that.
struct StoredRow {
  std::int64_t seq = 0;
  std::string id;
  std::string kind;
  std::int64_t occurred_at_ms = 0;
  std::optional<std::string> corrects;
  std::string subjects_hash;
  std::string leaf_hash;
  std::string interior;
  std::optional<std::string> root;
  std::vector<std::string> subjects;  ///< sorted
  std::vector<VerifyFault> orphans;   ///< mentions before it that belong to no entry
  base::Sha256Digest leaf_digest{};
  base::Sha256Digest subjects_digest{};
  /// What the leaf says; not looked at where it does not match its leaf hash.
  std::optional<base::Result<entries::Entry>> entry;
};

struct RowBatch {
  std::vector<StoredRow> rows;
  bool last = false;
  // Of the last one:
  std::vector<VerifyFault> orphans;    ///< after the last row
  std::size_t more_orphans = 0;        ///< of the book, that are not told one by one
  base::Status<> read = base::Done{};  ///< what broke the reading off, if anything did
};

/// The rows of a book in their order. For one thread at a time.
class StoredRows {
 public:
  StoredRows(Connection& connection, const entries::Vocabulary& vocabulary)
      : connection_(connection), vocabulary_(vocabulary) {}
  /// Not to be asked for more after the last one.
  RowBatch next();

 private:
  base::Status<> begin();
  /// Adds rows up to a bound; false: there are no more.
  base::Result<bool> fill(RowBatch& batch);
  base::Status<> advance_mentions();
  /// Those of entry `seq`; any before it belong to no entry.
  base::Status<> take_mentions(StoredRow& row);
  base::Status<> take_orphans(std::vector<VerifyFault>& orphans);
  /// Tells the mention that waits as one, as long as there are not too many.
  void add_orphan(std::vector<VerifyFault>& orphans);

  Connection& connection_;
  const entries::Vocabulary& vocabulary_;
  std::optional<StatementInUse> rows_;
  std::optional<StatementInUse> mentions_;
  bool mention_waits_ = false;
  std::int64_t mention_seq_ = 0;
  std::size_t orphans_ = 0;
};

}  // namespace benchwarden::book
