#pragma once

#include <cstdint>

namespace benchwarden::demo {

/// A small generator whose numbers are the same on every machine (SplitMix64, public domain
/// algorithm of Steele, Lea and Flood 2014). Standard distributions are not.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next();
  /// A whole number between the two, both included.
  std::int64_t between(std::int64_t lowest, std::int64_t highest);

 private:
  std::uint64_t state_;
};

}  // namespace benchwarden::demo
