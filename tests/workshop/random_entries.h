#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "workshop/test_workshop.h"

namespace benchwarden::workshop {

/// Sends made-up entries of every sort that touches the tallies into a workshop, as people would:
/// many late, many wrong and corrected or struck out, some of persons who were not verified. The
/// clock moves on with them. The same seed makes the same entries.
class RandomEntries {
 public:
  RandomEntries(TestWorkshop& workshop, std::uint64_t seed)
      : workshop_(workshop), random_(seed), now_(workshop.clock.now()) {}

  /// Until so many more were accepted.
  void send(int accepted);

  [[nodiscard]] int corrections() const { return corrections_; }
  [[nodiscard]] int strikes() const { return strikes_; }
  [[nodiscard]] int late() const { return late_; }
  [[nodiscard]] int whole_transfers() const { return whole_transfers_; }
  [[nodiscard]] int refused() const { return refused_; }

  /// 0 … below - 1, the same on every library.
  std::uint64_t pick(std::uint64_t below) { return random_() % below; }
  /// A moment between the start and now.
  base::Instant moment();

 private:
  Told next();
  Told fresh();
  Told correction();
  Told transfer();
  Told rags();
  Told handling();
  Told collection();
  Told inspection();
  std::string when();
  std::string text(std::uint64_t below) { return std::to_string(1 + pick(below)); }
  std::string one_of(const std::vector<std::string>& choices) {
    return choices.at(pick(choices.size()));
  }
  std::string oil_container() { return one_of({"w1", "w2", "w3"}); }

  TestWorkshop& workshop_;
  std::mt19937_64 random_;
  base::Instant now_;
  std::vector<std::pair<std::string, std::string>> accepted_;  ///< id and kind
  int corrections_ = 0;
  int strikes_ = 0;
  int late_ = 0;
  int whole_transfers_ = 0;
  int refused_ = 0;
};

}  // namespace benchwarden::workshop
