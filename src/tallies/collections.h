#pragma once

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
  void withdraw(std::uint64_t seq, std::string_view collection);
  [[nodiscard]] const States& states() const { return states_; }

  void write(ByteWriter& writer) const;
  static Collections read(ByteReader& reader);

 private:
  struct Stage {
    base::Instant at;
    std::uint64_t seq = 0;
    entries::Takes takes;
  };

  static void write_stage(ByteWriter& writer, const Stage& stage);
  static Stage read_stage(ByteReader& reader);
  void make_again(std::string_view collection);

  States states_;
  std::map<std::string, std::vector<Stage>, std::less<>> stages_;  ///< in order of (at, seq)
};

}  // namespace benchwarden::tallies
