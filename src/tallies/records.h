#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/timestamp.h"
#include "entries/effect.h"
#include "tallies/record_list.h"

namespace benchwarden::tallies {

class ByteReader;
class ByteWriter;

/// What is told of every thing, in order of (at, seq). What is about no thing is filed under the
/// class "" and the kind of the entry.
class Records {
 public:
  using ById = std::map<std::string, RecordList, std::less<>>;

  void post(base::Instant at, std::uint64_t seq, const entries::Checks& checks);
  void post(base::Instant at, std::uint64_t seq, const entries::Notes& notes);
  /// Makes what one entry tells that which `after` says, in order and thing by thing. What a
  /// correction took away stays, struck. The things whose service it may have decided.
  struct ThingKey {
    std::string thing_class;
    std::string id;
    friend auto operator<=>(const ThingKey&, const ThingKey&) = default;
  };
  std::vector<ThingKey> amend(base::Instant at, std::uint64_t seq, const entries::Effects& before,
                              const entries::Effects& after);

  [[nodiscard]] const RecordList& about(std::string_view thing_class, std::string_view id) const;
  /// All things of a class of which anything was told.
  [[nodiscard]] const ById& of_class(std::string_view thing_class) const;
  /// Everything, by class and thing.
  [[nodiscard]] const std::map<std::string, ById, std::less<>>& all() const { return records_; }
  /// The last look in order of time that decided: passed puts a thing in service; failed and
  /// withdrawn take it out. True when none did.
  [[nodiscard]] bool in_service(std::string_view thing_class, std::string_view id) const;

  void write(ByteWriter& writer) const;
  static Records read(ByteReader& reader);

 private:
  std::map<std::string, ById, std::less<>> records_;
};

}  // namespace benchwarden::tallies
