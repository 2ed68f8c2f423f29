#pragma once

#include <functional>
#include <memory>
#include <mutex>

#include "book/book.h"
#include "book/reader_pool.h"
#include "book/snapshot_file.h"
#include "book/turn_queue.h"
#include "book/writer.h"
#include "sqlite/folder_lock.h"

namespace benchwarden::book {

/// The book on disk: one writer whose turn passes from thread to thread, a pool of readers, the
/// snapshot beside them, and the lock on their folder, given up last.
class StoredBook final : public Book {
 public:
  StoredBook(sqlite::FolderLock lock, Writer writer, std::unique_ptr<ReaderPool> readers,
             std::unique_ptr<SnapshotFile> snapshots, const entries::Vocabulary& vocabulary);

  void follow(Follower follower) override;
  base::Result<Receipt> append(const Draft& draft) override;
  base::Result<std::vector<Receipt>> append_all(const std::vector<Draft>& drafts) override;
  [[nodiscard]] TreeHead head() const override;
  base::Result<base::Sha256Digest> root_at(std::uint64_t size) const override;
  base::Result<entries::Entry> entry(std::uint64_t seq) const override;
  base::Result<entries::Entry> entry(const base::Uuid& id) const override;
  base::Result<base::Sha256Digest> leaf_hash(std::uint64_t seq) const override;
  base::Result<Inclusion> inclusion(std::uint64_t seq, std::uint64_t size) const override;
  base::Result<Consistency> consistency(std::uint64_t from, std::uint64_t to) const override;
  base::Result<std::vector<entries::Entry>> select(const Selection& selection) const override;
  base::Result<std::vector<entries::Entry>> corrections_of(const base::Uuid& id) const override;
  base::Status<> each(
      std::uint64_t from_seq,
      const std::function<base::Status<>(const entries::Entry&)>& visit) const override;
  base::Status<> keep_checkpoint(const KeptCheckpoint& checkpoint) override;
  base::Result<std::vector<KeptCheckpoint>> checkpoints(std::uint64_t after_number,
                                                        std::size_t limit) const override;
  base::Result<std::optional<KeptCheckpoint>> last_checkpoint() const override;
  base::Status<> keep_snapshot(const Snapshot& snapshot) override;
  [[nodiscard]] std::optional<Snapshot> snapshot() const override;
  base::Status<> keep_attachment(const std::string& bytes) override;
  base::Result<bool> stage_attachment(const std::string& bytes) override;
  [[nodiscard]] base::Result<bool> knows_attachment(
      const base::Sha256Digest& digest) const override;
  base::Result<std::string> attachment(const base::Sha256Digest& digest) const override;
  base::Result<AttachmentLook> look_at_attachment(const base::Sha256Digest& digest) const override;

 private:
  void lead(const TurnQueue::Turn& turn);
  /// Brings the head and the follower up to what was committed in this turn.
  void publish(const std::vector<entries::Entry>& recorded);

  sqlite::FolderLock lock_;
  Writer writer_;              ///< used in turn
  StagedAttachments& staged_;  ///< the writer's
  std::unique_ptr<ReaderPool> readers_;
  std::unique_ptr<SnapshotFile> snapshots_;
  const entries::Vocabulary& vocabulary_;
  TurnQueue queue_;
  Follower follower_;  ///< used in turn
  mutable std::mutex head_mutex_;
  TreeHead head_;  ///< guarded by head_mutex_
};

}  // namespace benchwarden::book
