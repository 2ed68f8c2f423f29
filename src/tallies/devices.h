#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "tallies/posting.h"

namespace benchwarden::tallies {

class ByteReader;
class ByteWriter;

/// Numbers from `from` to `to`, both included.
struct NumberRange {
  std::uint64_t from = 0;
  std::uint64_t to = 0;
  friend bool operator==(const NumberRange&, const NumberRange&) = default;
};

/// A set of numbers, kept as ranges: what comes in order takes the room of one.
class NumberRanges {
 public:
  /// False where the number was there.
  bool add(std::uint64_t number);
  [[nodiscard]] std::vector<NumberRange> all() const;
  /// Those from `first` up to the highest that are not there.
  [[nodiscard]] std::vector<NumberRange> gaps_from(std::uint64_t first) const;
  /// 0 where there is none.
  [[nodiscard]] std::uint64_t highest() const;

  void write(ByteWriter& writer) const;
  static NumberRanges read(ByteReader& reader);
  friend bool operator==(const NumberRanges&, const NumberRanges&) = default;

 private:
  std::map<std::uint64_t, std::uint64_t> ranges_;  ///< first to last; no two touch
};

/// What the book has of one device.
struct DeviceTold {
  std::uint64_t entries = 0;
  NumberRanges received;  ///< numbers of its own sequence
  NumberRanges repeated;  ///< those under which more than one entry came
  friend bool operator==(const DeviceTold&, const DeviceTold&) = default;
};

/// The devices of which entries came, by their id.
class Devices {
 public:
  using ById = std::map<std::string, DeviceTold, std::less<>>;

  /// Does nothing for an entry of no device.
  void post(const SentBy& sent_by);
  [[nodiscard]] const ById& all() const { return devices_; }

  void write(ByteWriter& writer) const;
  static Devices read(ByteReader& reader);

 private:
  ById devices_;
};

}  // namespace benchwarden::tallies
