#include "book/schema.h"

namespace benchwarden::book {
namespace {

// `interior` holds the nodes of the tree that this entry completes, above its own leaf hash, lowest
// level first; `root` stands where a group ended. Both lie in the entry's own row, because every
// further table costs one more page of write-ahead log in each commit. The long column is last.
constexpr std::string_view kFirstStep = R"sql(
CREATE TABLE entry (
  seq INTEGER PRIMARY KEY CHECK (seq >= 1),
  id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  kind TEXT NOT NULL CHECK (length(kind) BETWEEN 1 AND 40),
  occurred_at_ms INTEGER NOT NULL,
  corrects BLOB CHECK (length(corrects) = 16),
  subjects_hash BLOB NOT NULL CHECK (length(subjects_hash) = 32),
  leaf_hash BLOB NOT NULL CHECK (length(leaf_hash) = 32),
  interior BLOB NOT NULL CHECK (length(interior) % 32 = 0),
  root BLOB CHECK (length(root) = 32),
  leaf BLOB NOT NULL CHECK (length(leaf) BETWEEN 2 AND 65536)
) STRICT;
CREATE INDEX entry_by_kind ON entry (kind);
CREATE INDEX entry_by_time ON entry (occurred_at_ms);
CREATE INDEX entry_by_corrected ON entry (corrects) WHERE corrects IS NOT NULL;

CREATE TABLE mention (
  subject TEXT NOT NULL CHECK (length(subject) BETWEEN 1 AND 100),
  seq INTEGER NOT NULL,
  PRIMARY KEY (subject, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE attachment (
  digest BLOB NOT NULL UNIQUE CHECK (length(digest) = 32),
  bytes BLOB NOT NULL CHECK (length(bytes) <= 16777216)
) STRICT;

CREATE TRIGGER entry_in_order BEFORE INSERT ON entry
WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM entry)
BEGIN SELECT RAISE(ABORT, 'an entry takes the next number'); END;
CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry
BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry
BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END;

CREATE TRIGGER mention_in_order BEFORE INSERT ON mention
WHEN NEW.seq IS NOT (SELECT max(seq) FROM entry)
BEGIN SELECT RAISE(ABORT, 'a mention belongs to the newest entry'); END;
CREATE TRIGGER mention_no_update BEFORE UPDATE ON mention
BEGIN SELECT RAISE(ABORT, 'mentions are never changed'); END;
CREATE TRIGGER mention_no_delete BEFORE DELETE ON mention
BEGIN SELECT RAISE(ABORT, 'mentions are never deleted'); END;

CREATE TRIGGER attachment_no_update BEFORE UPDATE ON attachment
BEGIN SELECT RAISE(ABORT, 'attachments are never changed'); END;
CREATE TRIGGER attachment_no_delete BEFORE DELETE ON attachment
BEGIN SELECT RAISE(ABORT, 'attachments are never deleted'); END;
)sql";

// Signed notes about the tree: no part of it, and each can be checked alone.
constexpr std::string_view kCheckpointStep = R"sql(
CREATE TABLE checkpoint (
  number INTEGER PRIMARY KEY CHECK (number >= 1),
  size INTEGER NOT NULL CHECK (size >= 1),
  signed_at_ms INTEGER NOT NULL,
  verifier_key TEXT NOT NULL CHECK (length(verifier_key) BETWEEN 1 AND 400),
  note TEXT NOT NULL CHECK (length(note) BETWEEN 1 AND 65536)
) STRICT;
CREATE INDEX checkpoint_by_size ON checkpoint (size);

CREATE TRIGGER checkpoint_in_order BEFORE INSERT ON checkpoint
WHEN NEW.number IS NOT (SELECT coalesce(max(number), 0) + 1 FROM checkpoint)
  OR NEW.size > (SELECT coalesce(max(seq), 0) FROM entry)
BEGIN SELECT RAISE(ABORT, 'a checkpoint takes the next number and a size the book has'); END;
CREATE TRIGGER checkpoint_no_update BEFORE UPDATE ON checkpoint
BEGIN SELECT RAISE(ABORT, 'checkpoints are never changed'); END;
CREATE TRIGGER checkpoint_no_delete BEFORE DELETE ON checkpoint
BEGIN SELECT RAISE(ABORT, 'checkpoints are never deleted'); END;
)sql";

constexpr std::string_view kDerivedFirstStep = R"sql(
CREATE TABLE snapshot (
  only_one INTEGER PRIMARY KEY CHECK (only_one = 1),
  fold_version INTEGER NOT NULL,
  size INTEGER NOT NULL,
  root BLOB NOT NULL CHECK (length(root) = 32),
  bytes BLOB NOT NULL,
  bytes_hash BLOB NOT NULL CHECK (length(bytes_hash) = 32)
) STRICT;
)sql";

constexpr std::string_view kStagedFirstStep = R"sql(
CREATE TABLE staged (
  digest BLOB NOT NULL UNIQUE CHECK (length(digest) = 32),
  arrived_ms INTEGER NOT NULL,
  bytes BLOB NOT NULL
) STRICT;
)sql";

}  // namespace

const std::vector<std::string_view>& book_schema() {
  static const std::vector<std::string_view> steps{kFirstStep, kCheckpointStep};
  return steps;
}

const std::vector<std::string_view>& derived_schema() {
  static const std::vector<std::string_view> steps{kDerivedFirstStep};
  return steps;
}

const std::vector<std::string_view>& staged_schema() {
  static const std::vector<std::string_view> steps{kStagedFirstStep};
  return steps;
}

}  // namespace benchwarden::book
