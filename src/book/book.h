#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/clock.h"
#include "base/result.h"
#include "base/sha256.h"
#include "book/entry_source.h"
#include "entries/entry.h"
#include "entries/leaf.h"

namespace benchwarden::book {

struct TreeHead {
  std::uint64_t size = 0;
  base::Sha256Digest root{};
  friend bool operator==(const TreeHead&, const TreeHead&) = default;
};

/// An entry on its way into the book, with the things it is about ("container/w1").
struct Draft {
  entries::Content content;
  entries::Signature signature;
  std::vector<std::string> subjects;
  /// Of an entry that is put back from an export; for all others the clock is read.
  std::optional<base::Instant> recorded_at = std::nullopt;
};

struct Receipt {
  std::uint64_t seq = 0;
  base::Instant recorded_at;
  base::Sha256Digest leaf_hash{};
  bool already_there = false;  ///< the same id with the same content was recorded before
};

/// What shows that one entry is in the book, to whoever has the head from elsewhere: RFC 9162,
/// section 2.1.3.
struct Inclusion {
  TreeHead head;
  std::string leaf;  ///< the bytes that are hashed
  std::vector<base::Sha256Digest> path;
};

/// What shows that the book only grew between two sizes, to whoever has both heads from elsewhere:
/// RFC 9162, section 2.1.4.
struct Consistency {
  TreeHead from;
  TreeHead to;
  std::vector<base::Sha256Digest> path;
};

/// A signed note about the tree of a size, as it was kept. What it says is not looked at here.
struct KeptCheckpoint {
  std::uint64_t number = 0;  ///< 1 for the first; given when it is kept
  std::uint64_t size = 0;
  base::Instant signed_at;
  std::string verifier_key;
  std::string note;
};

/// Narrowing of a reading; everything is optional and all must hold.
struct Selection {
  // Initialised one by one, so that a caller can name only those it means.
  std::optional<std::string> kind = std::nullopt;
  std::optional<std::string> subject = std::nullopt;
  std::optional<base::Instant> from = std::nullopt;   ///< occurred_at >= from
  std::optional<base::Instant> until = std::nullopt;  ///< occurred_at < until
  std::uint64_t after_seq = 0;
  std::uint64_t known_at = UINT64_MAX;  ///< as the book was at this size
  std::size_t limit = 50;
};

/// The append-only store. Safe to use from many threads. One folder, one process (locked).
class Book : public EntrySource {
 public:
  /// Called inside the group's turn, in book order, after the group's commit is durable and before
  /// its writers are answered: state that follows the book (the tallies) is never ahead of it.
  using Follower = std::function<void(const entries::Entry&)>;

  /// Opens or creates `folder`/book.db, runs migrations, checks the stored head against the last
  /// head file beside it. kDamaged, kUnavailable (locked by another process).
  static base::Result<std::unique_ptr<Book>> open(const std::filesystem::path& folder,
                                                  const entries::Vocabulary& vocabulary,
                                                  const base::Clock& clock);
  virtual void follow(Follower follower) = 0;

  /// Appends and returns once the commit is durable, with the attachments it names. Many callers at
  /// once share one commit: the first to arrive commits for all that wait. kConflict: the id is
  /// known with other content; kUnavailable: the commit failed, nothing of it was recorded. A draft
  /// that cannot be stored fails alone, never its group.
  virtual base::Result<Receipt> append(const Draft& draft) = 0;

  /// Appends all of them in one commit and in their order, or none: the first draft that cannot be
  /// stored, or whose id is known already (kConflict), is the error of all.
  virtual base::Result<std::vector<Receipt>> append_all(const std::vector<Draft>& drafts) = 0;

  [[nodiscard]] virtual TreeHead head() const = 0;
  using EntrySource::entry;
  virtual base::Result<entries::Entry> entry(std::uint64_t seq) const = 0;
  virtual base::Result<base::Sha256Digest> leaf_hash(std::uint64_t seq) const = 0;
  /// Of entry `seq`, in the tree of the first `size` entries. kNotFound, also when the tree ends
  /// before the entry or the book before the tree; kDamaged when a stored hash is missing.
  virtual base::Result<Inclusion> inclusion(std::uint64_t seq, std::uint64_t size) const = 0;
  /// Between the first `from` and the first `to` entries. kInvalid unless 1 <= from <= to;
  /// kNotFound when the book ends before; kDamaged when a stored hash is missing.
  virtual base::Result<Consistency> consistency(std::uint64_t from, std::uint64_t to) const = 0;
  virtual base::Result<std::vector<entries::Entry>> select(const Selection& selection) const = 0;
  /// Every entry from `from_seq` on, in book order, until `visit` returns an error.
  virtual base::Status<> each(
      std::uint64_t from_seq,
      const std::function<base::Status<>(const entries::Entry&)>& visit) const = 0;

  /// Keeps a note for ever; the same one is kept once. kConflict: the book has no such size.
  virtual base::Status<> keep_checkpoint(const KeptCheckpoint& checkpoint) = 0;
  /// Those after that number, in the order they were kept.
  virtual base::Result<std::vector<KeptCheckpoint>> checkpoints(std::uint64_t after_number,
                                                                std::size_t limit) const = 0;
  /// Of the largest size the one kept last.
  virtual base::Result<std::optional<KeptCheckpoint>> last_checkpoint() const = 0;

  /// A snapshot of the tallies, stored beside the book; no part of what is proven.
  struct Snapshot {
    int fold_version = 0;
    TreeHead head;
    std::string bytes;
  };
  virtual base::Status<> keep_snapshot(const Snapshot& snapshot) = 0;
  [[nodiscard]] virtual std::optional<Snapshot> snapshot() const = 0;

  /// Keeps bytes for ever, by their SHA-256: those of a report that is about to be issued.
  virtual base::Status<> keep_attachment(const std::string& bytes) = 0;
  /// Keeps bytes until an entry names their digest: the commit of that entry takes them into the
  /// book with it. Those that no entry names go after a day. True: they are known already, in the
  /// book or waiting. kUnavailable: too much waits.
  virtual base::Result<bool> stage_attachment(const std::string& bytes) = 0;
  /// Whether an entry may name it: it is in the book, or waits for an entry.
  [[nodiscard]] virtual base::Result<bool> knows_attachment(
      const base::Sha256Digest& digest) const = 0;
  /// Of an attachment in the book. kNotFound; kDamaged when it does not match its digest.
  virtual base::Result<std::string> attachment(const base::Sha256Digest& digest) const = 0;
  /// What can be said of it without reading it whole.
  struct AttachmentLook {
    std::uint64_t bytes = 0;
    std::string beginning;  ///< its first 16 bytes
  };
  virtual base::Result<AttachmentLook> look_at_attachment(
      const base::Sha256Digest& digest) const = 0;

 protected:
  Book() = default;
};

}  // namespace benchwarden::book
