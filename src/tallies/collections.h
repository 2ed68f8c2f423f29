#pragma once

#include <compare>
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

/// What one entry that stands told of a collection.
struct CollectionTold {
  base::Instant at;
  std::uint64_t seq = 0;
  entries::Takes takes;
  friend bool operator==(const CollectionTold&, const CollectionTold&) = default;
};

/// One collection as its entries tell it, in order of time.
using CollectionStages = std::vector<CollectionTold>;

bool was_taken(const CollectionStages& stages);
/// nullptr where nothing was planned. A later plan takes the place of the one before it.
const CollectionTold* last_plan(const CollectionStages& stages);
/// The last plan as long as it is still to be done: nothing was taken, nor was all of it refused
/// since. Else nullptr.
const CollectionTold* open_plan(const CollectionStages& stages);

/// Collections by their id. What a stage did to containers is in their timelines.
class Collections {
 public:
  using ById = std::map<std::string, CollectionStages, std::less<>>;

  void post(base::Instant at, std::uint64_t seq, const entries::Takes& takes);
  /// What the entry `seq` said about this collection is no more. A collection about which nothing
  /// stands is gone.
  void withdraw(base::Instant at, std::uint64_t seq, std::string_view collection);
  /// Made on asking, so that posting does not depend on how much was told of a collection before.
  [[nodiscard]] ById all() const;
  /// None of a collection about which nothing stands.
  [[nodiscard]] CollectionStages stages(std::string_view collection) const;

  void write(ByteWriter& writer) const;
  static Collections read(ByteReader& reader);

 private:
  struct Key {
    base::Instant at;
    std::uint64_t seq = 0;
    friend auto operator<=>(const Key&, const Key&) = default;
  };
  using Stages = std::multimap<Key, entries::Takes>;  ///< one entry may tell several

  static CollectionStages listed(const Stages& stages);
  static void write_stage(ByteWriter& writer, const Key& key, const entries::Takes& takes);
  static Stages::value_type read_stage(ByteReader& reader);

  std::map<std::string, Stages, std::less<>> stages_;  ///< never an empty one
};

}  // namespace benchwarden::tallies
