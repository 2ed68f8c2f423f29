#pragma once

#include <cstdint>
#include <random>
#include <string>

namespace benchwarden::testing {

/// Rounds of a test, each with choices of its own. The environment says how many (by `variable`,
/// otherwise `usual`), and with BENCHWARDEN_SEED repeats those of an earlier run, whose seed is
/// printed.
class Rounds {
 public:
  Rounds(const char* variable, int usual);

  bool next();  ///< false after the last one
  [[nodiscard]] int number() const { return number_; }
  std::mt19937_64& random() { return random_; }
  [[nodiscard]] std::string where() const;

 private:
  int count_;
  std::uint64_t seed_;
  int number_ = -1;
  std::mt19937_64 random_;
};

/// A whole number from the environment.
std::uint64_t from_environment(const char* variable, std::uint64_t otherwise);

}  // namespace benchwarden::testing
