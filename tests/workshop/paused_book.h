#pragma once

#include <chrono>
#include <functional>
#include <future>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "workshop/ports.h"

namespace benchwarden::workshop {

/// A book that does something first whenever an entry is about to be appended, and then is the
/// book behind it. It makes the moment between judging an entry and storing it as long as a test
/// needs.
class PausedBook : public book::Book {
 public:
  using Before = std::function<void(const book::Draft&)>;
  PausedBook(book::Book& behind, Before before) : behind_(behind), before_(std::move(before)) {}

  base::Result<book::Receipt> append(const book::Draft& draft) override {
    before_(draft);
    return behind_.append(draft);
  }
  base::Result<std::vector<book::Receipt>> append_all(
      const std::vector<book::Draft>& drafts) override {
    for (const book::Draft& draft : drafts) before_(draft);
    return behind_.append_all(drafts);
  }
  void follow(Follower follower) override { behind_.follow(std::move(follower)); }
  [[nodiscard]] book::TreeHead head() const override { return behind_.head(); }
  base::Result<base::Sha256Digest> root_at(std::uint64_t size) const override {
    return behind_.root_at(size);
  }
  base::Result<entries::Entry> entry(std::uint64_t seq) const override {
    return behind_.entry(seq);
  }
  base::Result<entries::Entry> entry(const base::Uuid& id) const override {
    return behind_.entry(id);
  }
  base::Result<base::Sha256Digest> leaf_hash(std::uint64_t seq) const override {
    return behind_.leaf_hash(seq);
  }
  base::Result<book::Inclusion> inclusion(std::uint64_t seq, std::uint64_t size) const override {
    return behind_.inclusion(seq, size);
  }
  base::Result<book::Consistency> consistency(std::uint64_t from, std::uint64_t to) const override {
    return behind_.consistency(from, to);
  }
  base::Result<std::vector<entries::Entry>> select(
      const book::Selection& selection) const override {
    return behind_.select(selection);
  }
  base::Result<std::vector<entries::Entry>> corrections_of(const base::Uuid& id) const override {
    return behind_.corrections_of(id);
  }
  base::Status<> each(
      std::uint64_t from_seq,
      const std::function<base::Status<>(const entries::Entry&)>& visit) const override {
    return behind_.each(from_seq, visit);
  }
  base::Status<> keep_checkpoint(const book::KeptCheckpoint& checkpoint) override {
    return behind_.keep_checkpoint(checkpoint);
  }
  base::Result<std::vector<book::KeptCheckpoint>> checkpoints(std::uint64_t after_number,
                                                              std::size_t limit) const override {
    return behind_.checkpoints(after_number, limit);
  }
  base::Result<std::optional<book::KeptCheckpoint>> last_checkpoint() const override {
    return behind_.last_checkpoint();
  }
  base::Status<> keep_snapshot(const Snapshot& snapshot) override {
    return behind_.keep_snapshot(snapshot);
  }
  [[nodiscard]] std::optional<Snapshot> snapshot() const override { return behind_.snapshot(); }
  base::Status<> keep_attachment(const std::string& bytes) override {
    return behind_.keep_attachment(bytes);
  }
  base::Result<bool> stage_attachment(const std::string& bytes) override {
    return behind_.stage_attachment(bytes);
  }
  [[nodiscard]] base::Result<bool> knows_attachment(
      const base::Sha256Digest& digest) const override {
    return behind_.knows_attachment(digest);
  }
  base::Result<AttachmentLook> look_at_attachment(const base::Sha256Digest& digest) const override {
    return behind_.look_at_attachment(digest);
  }
  base::Result<std::string> attachment(const base::Sha256Digest& digest) const override {
    return behind_.attachment(digest);
  }

 private:
  book::Book& behind_;
  Before before_;
};

/// A book in which an entry is recorded by another whenever it is asked for a selection.
class BusyBook : public PausedBook {
 public:
  BusyBook(book::Book& behind, std::function<void()> record)
      : PausedBook(behind, [](const book::Draft&) {}), record_(std::move(record)) {}

  base::Result<std::vector<entries::Entry>> select(
      const book::Selection& selection) const override {
    auto other = std::async(std::launch::async, record_);
    // Only a failing test waits so long: the other is then answered after this read.
    if (other.wait_for(std::chrono::seconds(20)) != std::future_status::ready) ++held_up_;
    others_.push_back(std::move(other));
    return PausedBook::select(selection);
  }
  [[nodiscard]] int held_up() const { return held_up_; }

 private:
  std::function<void()> record_;
  mutable int held_up_ = 0;
  mutable std::vector<std::future<void>> others_;
};

/// The same ports with another book.
inline Ports with_book(const Ports& ports, book::Book& book) {
  return {book,         ports.live,  ports.definitions, ports.clock, ports.names, ports.admission,
          ports.costly, ports.packs, ports.signing_key};
}

}  // namespace benchwarden::workshop
