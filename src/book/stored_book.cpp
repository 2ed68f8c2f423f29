#include "book/stored_book.h"

#include <deque>
#include <utility>

#include "book/checkpoints.h"
#include "book/new_folder.h"
#include "book/queries.h"
#include "book/stored_entries.h"
#include "book/stored_tree.h"
#include "book/tree_proofs.h"

namespace benchwarden::book {

base::Result<std::unique_ptr<Book>> Book::open(const std::filesystem::path& folder,
                                               const entries::Vocabulary& vocabulary,
                                               const base::Clock& clock) {
  const auto made = make_folders(folder);
  if (!made) return base::Error{made.error().code, "data folder: " + made.error().detail};
  auto lock = sqlite::FolderLock::take(folder);
  if (!lock.ok()) return lock.error();
  auto writer = Writer::open(folder, vocabulary, clock);
  if (!writer.ok()) return writer.error();
  auto readers = ReaderPool::open(folder);
  if (!readers.ok()) return readers.error();
  auto snapshots = SnapshotFile::open(folder);
  if (!snapshots.ok()) return snapshots.error();
  return std::unique_ptr<Book>(std::make_unique<StoredBook>(*std::move(lock), *std::move(writer),
                                                            *std::move(readers),
                                                            *std::move(snapshots), vocabulary));
}

StoredBook::StoredBook(sqlite::FolderLock lock, Writer writer, std::unique_ptr<ReaderPool> readers,
                       std::unique_ptr<SnapshotFile> snapshots,
                       const entries::Vocabulary& vocabulary)
    : lock_(std::move(lock)),
      writer_(std::move(writer)),
      staged_(writer_.staged()),
      readers_(std::move(readers)),
      snapshots_(std::move(snapshots)),
      vocabulary_(vocabulary),
      head_(writer_.head()) {}

void StoredBook::follow(Follower follower) {
  TurnQueue::Ticket ticket;
  const TurnQueue::Turn turn = queue_.wait(ticket);
  follower_ = std::move(follower);
}

base::Result<Receipt> StoredBook::append(const Draft& draft) {
  TurnQueue::Ticket ticket(draft);
  {
    const TurnQueue::Turn turn = queue_.wait(ticket);
    if (turn.leads()) lead(turn);
  }
  return *std::move(ticket.receipt);
}

base::Result<std::vector<Receipt>> StoredBook::append_all(const std::vector<Draft>& drafts) {
  std::deque<TurnQueue::Ticket> tickets;  // which neither move nor are copied
  std::vector<TurnQueue::Ticket*> group;
  for (const Draft& draft : drafts) group.push_back(&tickets.emplace_back(draft));
  TurnQueue::Ticket alone;
  const TurnQueue::Turn turn = queue_.wait(alone);
  const auto recorded = writer_.commit_whole(group);
  if (!recorded.ok()) return recorded.error();
  publish(*recorded);
  std::vector<Receipt> receipts;
  for (const TurnQueue::Ticket& ticket : tickets) receipts.push_back(**ticket.receipt);
  return receipts;
}

void StoredBook::lead(const TurnQueue::Turn& turn) { publish(writer_.commit(turn.group())); }

void StoredBook::publish(const std::vector<entries::Entry>& recorded) {
  if (recorded.empty()) return;
  {
    const std::lock_guard lock(head_mutex_);
    head_ = writer_.head();
  }
  if (!follower_) return;
  for (const entries::Entry& entry : recorded) follower_(entry);
}

TreeHead StoredBook::head() const {
  const std::lock_guard lock(head_mutex_);
  return head_;
}

base::Result<base::Sha256Digest> StoredBook::root_at(std::uint64_t size) const {
  if (size > head().size) {
    return base::Error{base::ErrorCode::kNotFound,
                       "the book has no " + std::to_string(size) + " entries"};
  }
  auto reader = readers_->borrow();
  return StoredEntries(*reader, vocabulary_).root_at(size);
}

base::Result<entries::Entry> StoredBook::entry(std::uint64_t seq) const {
  auto reader = readers_->borrow();
  auto leaf = leaf_of(*reader, seq);
  if (!leaf.ok()) return leaf.error();
  return entries::read_leaf(*leaf, vocabulary_);
}

base::Result<entries::Entry> StoredBook::entry(const base::Uuid& id) const {
  auto reader = readers_->borrow();
  return StoredEntries(*reader, vocabulary_).entry(id);
}

base::Result<base::Sha256Digest> StoredBook::leaf_hash(std::uint64_t seq) const {
  auto reader = readers_->borrow();
  return leaf_hash_of(*reader, seq);
}

base::Result<Inclusion> StoredBook::inclusion(std::uint64_t seq, std::uint64_t size) const {
  if (seq > size) {
    return base::Error{
        base::ErrorCode::kNotFound,
        "a book of " + std::to_string(size) + " entries ends before entry " + std::to_string(seq)};
  }
  auto root = root_at(size);
  if (!root.ok()) return root.error();
  auto reader = readers_->borrow();
  auto leaf = leaf_of(*reader, seq);
  if (!leaf.ok()) return leaf.error();
  auto path = inclusion_path(stored_nodes(*reader), seq, size);
  if (!path.ok()) return path.error();
  return Inclusion{{size, *root}, *std::move(leaf), *std::move(path)};
}

base::Result<Consistency> StoredBook::consistency(std::uint64_t from, std::uint64_t to) const {
  if (from < 1 || from > to) {
    return base::Error{base::ErrorCode::kInvalid,
                       "of two sizes of a book the first is 1 or more, and not above the second"};
  }
  auto first = root_at(from);
  if (!first.ok()) return first.error();
  auto second = root_at(to);
  if (!second.ok()) return second.error();
  auto reader = readers_->borrow();
  auto path = consistency_path(stored_nodes(*reader), from, to);
  if (!path.ok()) return path.error();
  return Consistency{{from, *first}, {to, *second}, *std::move(path)};
}

base::Result<std::vector<entries::Entry>> StoredBook::select(const Selection& selection) const {
  auto reader = readers_->borrow();
  return read_leaves(leaves_selected(*reader, selection), vocabulary_);
}

base::Result<std::vector<entries::Entry>> StoredBook::corrections_of(const base::Uuid& id) const {
  auto reader = readers_->borrow();
  return StoredEntries(*reader, vocabulary_).corrections_of(id);
}

base::Status<> StoredBook::each(
    std::uint64_t from_seq,
    const std::function<base::Status<>(const entries::Entry&)>& visit) const {
  // By pages, so that neither the log is pinned nor a connection held while `visit` works.
  constexpr std::size_t kPage = 256;
  for (std::uint64_t next = from_seq;;) {
    base::Result<std::vector<std::string>> leaves = [&] {
      auto reader = readers_->borrow();
      return leaves_from(*reader, next, kPage);
    }();
    auto page = read_leaves(leaves, vocabulary_);
    if (!page.ok()) return page.error();
    for (const entries::Entry& entry : *page) {
      auto visited = visit(entry);
      if (!visited.ok()) return visited;
    }
    if (page->size() < kPage) return base::Done{};
    next = page->back().seq + 1;
  }
}

base::Status<> StoredBook::keep_checkpoint(const KeptCheckpoint& checkpoint) {
  TurnQueue::Ticket ticket;
  const TurnQueue::Turn turn = queue_.wait(ticket);
  return writer_.keep_checkpoint(checkpoint);
}

base::Result<std::vector<KeptCheckpoint>> StoredBook::checkpoints(std::uint64_t after_number,
                                                                  std::size_t limit) const {
  auto reader = readers_->borrow();
  return checkpoints_after(*reader, after_number, limit);
}

base::Result<std::optional<KeptCheckpoint>> StoredBook::last_checkpoint() const {
  auto reader = readers_->borrow();
  return book::last_checkpoint(*reader);
}

base::Status<> StoredBook::keep_snapshot(const Snapshot& snapshot) {
  return snapshots_->keep(snapshot);
}

std::optional<Book::Snapshot> StoredBook::snapshot() const { return snapshots_->read(); }

base::Status<> StoredBook::keep_attachment(const std::string& bytes) {
  TurnQueue::Ticket ticket;
  const TurnQueue::Turn turn = queue_.wait(ticket);
  return writer_.keep_attachment(bytes);
}

base::Result<bool> StoredBook::stage_attachment(const std::string& bytes) {
  const base::Sha256Digest digest = base::sha256(bytes);
  {
    auto reader = readers_->borrow();
    auto kept = is_attachment_kept(*reader, digest);
    if (!kept.ok() || *kept) return kept;
  }
  return staged_.keep(digest, bytes);
}

base::Result<bool> StoredBook::knows_attachment(const base::Sha256Digest& digest) const {
  // In this order: it is in the book before it stops waiting.
  auto waits = staged_.has(digest);
  if (!waits.ok() || *waits) return waits;
  auto reader = readers_->borrow();
  return is_attachment_kept(*reader, digest);
}

base::Result<std::string> StoredBook::attachment(const base::Sha256Digest& digest) const {
  auto reader = readers_->borrow();
  return attachment_of(*reader, digest);
}

base::Result<Book::AttachmentLook> StoredBook::look_at_attachment(
    const base::Sha256Digest& digest) const {
  auto reader = readers_->borrow();
  return attachment_look(*reader, digest);
}

}  // namespace benchwarden::book
