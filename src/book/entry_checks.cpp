#include "book/entry_checks.h"

#include <algorithm>
#include <utility>

#include "book/connection.h"
#include "book/stored_tree.h"

namespace benchwarden::book {
namespace {

std::string range(std::uint64_t from, std::uint64_t to) {
  if (from == to) return "entry " + std::to_string(from);
  return "entries " + std::to_string(from) + " to " + std::to_string(to);
}

}  // namespace

void FaultList::add(std::optional<std::uint64_t> seq, std::string what) {
  if (faults_.size() < kFaultsMax) {
    faults_.push_back({seq, std::move(what)});
  } else {
    ++left_out_;
  }
}

std::vector<VerifyFault> FaultList::take() {
  std::stable_sort(faults_.begin(), faults_.end(), [](const VerifyFault& a, const VerifyFault& b) {
    return a.seq.value_or(UINT64_MAX) < b.seq.value_or(UINT64_MAX);
  });
  if (left_out_ > 0) {
    faults_.push_back({std::nullopt, std::to_string(left_out_) + " more faults"});
    left_out_ = 0;
  }
  return std::exchange(faults_, {});
}

const entries::Entry* EntryChecks::check(const StoredRow& row) {
  if (row.seq < 1) {
    faults_.add(std::nullopt, "an entry has the number " + std::to_string(row.seq));
    return nullptr;
  }
  check_number(row);
  const bool leaf_holds = check_leaf(row);
  check_tree(row);
  check_subjects(row);
  next_seq_ = static_cast<std::uint64_t>(row.seq) + 1;
  // What a changed leaf says, and what rests on it, is bound to disagree with the rest.
  const auto* entry = leaf_holds ? read(row) : nullptr;
  if (entry == nullptr) doubtful_.insert(row.corrects.value_or(row.id));
  return entry;
}

bool EntryChecks::check_leaf(const StoredRow& row) {
  const bool holds = row.leaf_hash == base::as_bytes(row.leaf_digest);
  if (!from_leaves_ && !(holds && tree_holds_)) from_leaves_ = from_hashes_;
  if (from_leaves_) static_cast<void>(from_leaves_->append(row.leaf_digest));
  if (holds) return true;
  faults_.add(static_cast<std::uint64_t>(row.seq), "its leaf does not match its leaf hash");
  group_is_named_ = true;
  return false;
}

const entries::Entry* EntryChecks::read(const StoredRow& row) {
  if (!row.entry->ok()) {
    faults_.add(static_cast<std::uint64_t>(row.seq),
                "its leaf cannot be read: " + row.entry->error().detail);
    return nullptr;
  }
  check_columns(row, **row.entry);
  return &row.entry->value();
}

bool EntryChecks::rests_on_doubt(const entries::Entry& entry) const {
  return entry.content.corrects && doubtful_.contains(bytes_of(*entry.content.corrects));
}

void EntryChecks::check_number(const StoredRow& row) {
  const auto seq = static_cast<std::uint64_t>(row.seq);
  if (seq == next_seq_) return;
  faults_.add(next_seq_, range(next_seq_, seq - 1) + " missing");
  tree_holds_ = false;
}

void EntryChecks::check_tree(const StoredRow& row) {
  last_has_root_ = row.root.has_value();
  if (!tree_holds_) return;
  const auto seq = static_cast<std::uint64_t>(row.seq);
  auto leaf_hash = digest_of_blob(row.leaf_hash);
  if (!leaf_hash.ok()) {
    faults_.add(seq, "its leaf hash is not 32 bytes long");
    tree_holds_ = false;
    return;
  }
  const std::vector<Node> completed = from_hashes_.append(*leaf_hash);
  if (row.interior != interior_bytes(completed)) {
    add_to_group(seq, "the hashes of the tree that it completes do not match ");
  }
  if (row.root && *row.root != base::as_bytes(from_hashes_.root())) {
    add_to_group(seq, "the root stored with it does not match: the change lies in ");
    tree_holds_ = false;
  } else if (row.root) {
    proven_size_ = seq;
    group_is_named_ = false;
  }
  compare_last_head();
}

void EntryChecks::add_to_group(std::uint64_t seq, const std::string& what) {
  if (!group_is_named_) faults_.add(seq, what + range(proven_size_ + 1, seq));
  group_is_named_ = true;
}

void EntryChecks::check_columns(const StoredRow& row, const entries::Entry& entry) {
  const auto seq = static_cast<std::uint64_t>(row.seq);
  const entries::Content& content = entry.content;
  if (entry.seq != seq) {
    // Two entries claim one place; the first of the two places is where the book went wrong.
    faults_.add(std::min(seq, entry.seq), "the entry in place " + std::to_string(seq) +
                                              " says it is number " + std::to_string(entry.seq));
  }
  std::optional<std::string> corrects;
  if (content.corrects) corrects = bytes_of(*content.corrects);
  if (row.id != bytes_of(content.id) || row.kind != content.kind ||
      row.occurred_at_ms != content.occurred_at.instant.ms || row.corrects != corrects) {
    faults_.add(seq, "its index columns do not say what its leaf says");
  }
}

void EntryChecks::check_subjects(const StoredRow& row) {
  if (row.subjects_hash != base::as_bytes(row.subjects_digest)) {
    faults_.add(static_cast<std::uint64_t>(row.seq),
                "its rows in the subject index are not those it was recorded with");
  }
}

void EntryChecks::compare_last_head() {
  if (!last_head_ || last_head_->size != from_hashes_.size() || !tree_holds_) return;
  if (last_head_->root == from_hashes_.root()) return;
  faults_.add(std::nullopt, "the first " + std::to_string(last_head_->size) +
                                " entries are not those the last-head file was written for");
}

void EntryChecks::finish() {
  const std::uint64_t end = next_seq_ - 1;
  if (last_head_ && last_head_->size > end) {
    faults_.add(end + 1, range(end + 1, last_head_->size) + " cut off the end");
  }
  if (!last_has_root_) {
    faults_.add(end + 1, "the group of entry " + std::to_string(end) + " went on after it");
  }
}

}  // namespace benchwarden::book
