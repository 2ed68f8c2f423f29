#pragma once

#include <cstdint>
#include <map>
#include <set>

#include "entries/effect.h"

namespace benchwarden::tallies {

class ByteReader;
class ByteWriter;

/// What the person in whose name something was recorded without a PIN said of it later.
struct Answer {
  std::uint64_t by = 0;  ///< number of the entry that says so
  entries::Authorship authorship = entries::Authorship::kMine;
  friend bool operator==(const Answer&, const Answer&) = default;
};

/// Entries that were recorded without a PIN, by their number, and what was answered for them.
class Claims {
 public:
  void post(std::uint64_t seq) { open_.insert(seq); }
  /// What is no open claim is passed over: from a viewpoint, what is answered may not be seen.
  void answer(std::uint64_t by, const entries::Confirms& confirms);
  /// What the entry `by` answered is open again.
  void withdraw(std::uint64_t by, const entries::Confirms& confirms);

  /// Those for which nobody has answered yet.
  [[nodiscard]] const std::set<std::uint64_t>& open() const { return open_; }
  [[nodiscard]] bool is_open(std::uint64_t seq) const { return open_.contains(seq); }
  /// nullptr where the entry came with a PIN, or is open.
  [[nodiscard]] const Answer* answer_for(std::uint64_t seq) const;

  void write(ByteWriter& writer) const;
  static Claims read(ByteReader& reader);
  friend bool operator==(const Claims&, const Claims&) = default;

 private:
  std::set<std::uint64_t> open_;
  std::map<std::uint64_t, Answer> answered_;
};

}  // namespace benchwarden::tallies
