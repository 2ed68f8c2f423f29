#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/timestamp.h"
#include "entries/effect.h"

namespace benchwarden::tallies {

class ByteReader;
class ByteWriter;

/// One look at a cylinder or tool. What was read is in the entry itself.
struct Check {
  base::Instant at;
  std::uint64_t seq = 0;
  entries::Outcome outcome = entries::Outcome::kRecorded;
  bool struck = false;  ///< struck out, or corrected to be about another thing
  friend bool operator==(const Check&, const Check&) = default;
};

/// Every look at every thing, in order of (at, seq).
class Inspections {
 public:
  void post(base::Instant at, std::uint64_t seq, const entries::Checks& checks);
  /// Makes the looks of one entry at one thing those that `outcomes` lists, in order. What a
  /// correction took away stays, struck.
  void amend(base::Instant at, std::uint64_t seq, const entries::Checks& thing,
             const std::vector<entries::Outcome>& outcomes);

  [[nodiscard]] const std::vector<Check>& checks(std::string_view thing_class,
                                                 std::string_view id) const;
  /// The last look in order of time that decided: passed puts a thing in service; failed and
  /// withdrawn take it out. True when none did.
  [[nodiscard]] bool in_service(std::string_view thing_class, std::string_view id) const;

  void write(ByteWriter& writer) const;
  static Inspections read(ByteReader& reader);

 private:
  using ById = std::map<std::string, std::vector<Check>, std::less<>>;
  std::map<std::string, ById, std::less<>> checks_;
};

}  // namespace benchwarden::tallies
