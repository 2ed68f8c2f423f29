#pragma once

#include <compare>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/timestamp.h"
#include "entries/effect.h"

namespace benchwarden::tallies {

class ByteReader;
class ByteWriter;

/// One collection as its entries that stand tell it, in order of time.
struct CollectionState {
  std::string carrier;                                ///< as last said
  std::string document_number;                        ///< as last said
  std::optional<base::Instant> taken_at;              ///< the first time, should it be in parts
  std::optional<base::Instant> document_returned_at;  ///< the last time
  std::vector<entries::TakenLoad> loads;              ///< as taken, of all parts
  std::vector<entries::TakenLoad> weighed;  ///< as the receiver weighed them; moves nothing
  std::vector<std::uint64_t> seqs;
  friend bool operator==(const CollectionState&, const CollectionState&) = default;
};

/// Collections by their id. What a stage did to containers is in their timelines.
class Collections {
 public:
  using States = std::map<std::string, CollectionState, std::less<>>;

  void post(base::Instant at, std::uint64_t seq, const entries::Takes& takes);
  /// What the entry `seq` said about this collection is no more. A collection about which nothing
  /// stands is gone.
  void withdraw(base::Instant at, std::uint64_t seq, std::string_view collection);
  /// Made on asking, so that posting does not depend on how much was told of a collection before.
  [[nodiscard]] States states() const;

  void write(ByteWriter& writer) const;
  static Collections read(ByteReader& reader);

 private:
  struct Key {
    base::Instant at;
    std::uint64_t seq = 0;
    friend auto operator<=>(const Key&, const Key&) = default;
  };
  using Stages = std::multimap<Key, entries::Takes>;  ///< one entry may tell several

  static void write_stage(ByteWriter& writer, const Key& key, const entries::Takes& takes);
  static Stages::value_type read_stage(ByteReader& reader);

  std::map<std::string, Stages, std::less<>> stages_;  ///< never an empty one
};

}  // namespace benchwarden::tallies
