#pragma once

#include <cstddef>
#include <cstdint>
#include <iterator>
#include <string_view>
#include <utility>
#include <vector>

#include "tallies/record.h"
#include "tallies/shared_list.h"

namespace benchwarden::tallies {

/// By (at, seq).
bool comes_before(const Record& a, const Record& b);

/// What is told of one thing, in order of (at, seq), and where in it the records of each kind and
/// those that decided lie: a rule that asks for one kind does not pass through the others.
/// Costs: what comes last in time O(1), what comes late O(n). Copies share what they have in
/// common.
class RecordList {
 public:
  using Iterator = SharedList<Record>::Iterator;
  using ReverseIterator = std::reverse_iterator<Iterator>;
  using Places = SharedList<std::uint32_t>;  ///< ascending

  [[nodiscard]] Iterator begin() const { return records_.begin(); }
  [[nodiscard]] Iterator end() const { return records_.end(); }
  [[nodiscard]] ReverseIterator rbegin() const { return records_.rbegin(); }
  [[nodiscard]] ReverseIterator rend() const { return records_.rend(); }
  [[nodiscard]] std::size_t size() const { return records_.size(); }
  [[nodiscard]] bool empty() const { return records_.empty(); }
  [[nodiscard]] const Record& back() const { return records_.back(); }
  [[nodiscard]] const Record& operator[](std::size_t place) const { return records_[place]; }

  [[nodiscard]] const Places& of_kind(std::string_view kind) const;
  /// Of the looks that passed, failed or withdrew the thing; those struck out are among them.
  [[nodiscard]] const Places& deciding() const { return deciding_; }
  /// How many of these places hold what happened before a moment.
  [[nodiscard]] std::size_t count_before(const Places& places, base::Instant until) const;

  void add(const Record& record);
  /// Makes what one entry told that which `says` has, in order. What is told no more stays, struck.
  void amend(base::Instant at, std::uint64_t seq, const std::vector<Record>& says);

 private:
  Places& places_of(SharedText kind);
  void note(std::size_t place);
  void forget(std::size_t place);

  SharedList<Record> records_;
  std::vector<std::pair<SharedText, Places>> kinds_;  ///< a few, in no order
  Places deciding_;
};

/// Whether the thing was in service right before `at`, by looks that stand.
bool in_service_before(const RecordList& records, base::Instant at);

}  // namespace benchwarden::tallies
