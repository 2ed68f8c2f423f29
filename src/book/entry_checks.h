#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "book/merkle.h"
#include "book/stored_rows.h"
#include "book/verify.h"

namespace benchwarden::book {

/// What was found, up to a bound: a file shifted by one entry is bad from there to its end.
class FaultList {
 public:
  static constexpr std::size_t kFaultsMax = 100;
  void add(std::optional<std::uint64_t> seq, std::string what);
  /// Counts `faults` that nobody wrote down since the list was full anyway.
  void leave_out(std::size_t faults) { left_out_ += faults; }
  /// By seq, those without one last, then how many more there were.
  std::vector<VerifyFault> take();

 private:
  std::vector<VerifyFault> faults_;
  std::size_t left_out_ = 0;
};

/// The checks of one entry after the other, in book order.
class EntryChecks {
 public:
  EntryChecks(std::optional<TreeHead> last_head, FaultList& faults)
      : last_head_(last_head), faults_(faults) {
    compare_last_head();
  }

  /// Returns the entry when its leaf is the one it was recorded with and can be read.
  const entries::Entry* check(const StoredRow& row);
  /// Whether it corrects an entry of which a fault is named, or that such an entry corrects.
  [[nodiscard]] bool rests_on_doubt(const entries::Entry& entry) const;
  /// After the last row: the end of the book against the last-head file.
  void finish();
  [[nodiscard]] TreeHead head() const {
    const TreeEdge& edge = from_leaves_ ? *from_leaves_ : from_hashes_;
    return {edge.size(), edge.root()};
  }
  /// The number the next row should have.
  [[nodiscard]] std::uint64_t next_seq() const { return next_seq_; }

 private:
  void check_number(const StoredRow& row);
  bool check_leaf(const StoredRow& row);
  void check_tree(const StoredRow& row);
  const entries::Entry* read(const StoredRow& row);
  /// A fault of the tree since the last root that matched; the first of them brings the others.
  void add_to_group(std::uint64_t seq, const std::string& what);
  void check_columns(const StoredRow& row, const entries::Entry& entry);
  void check_subjects(const StoredRow& row);
  void compare_last_head();

  std::optional<TreeHead> last_head_;
  FaultList& faults_;
  std::uint64_t next_seq_ = 1;
  /// From the leaves, once they and the stored leaf hashes give two trees.
  std::optional<TreeEdge> from_leaves_;
  /// From the stored leaf hashes, so that one changed leaf is one fault and not one in every hash
  /// above it.
  TreeEdge from_hashes_;
  bool tree_holds_ = true;  ///< false after the first gap or wrong root: all later ones follow
  bool last_has_root_ = true;
  std::uint64_t proven_size_ = 0;  ///< of the newest root that matched
  bool group_is_named_ = false;    ///< a fault since then that roots and hashes follow from
  /// Ids of entries whose leaf, or a correction's, does not hold.
  std::set<std::string, std::less<>> doubtful_;
};

}  // namespace benchwarden::book
