#pragma once

#include <cstdint>
#include <random>
#include <variant>
#include <vector>

#include "tallies/posting.h"
#include "tallies/state.h"

namespace benchwarden::tallies {

using Step = std::variant<Posting, Amendment>;

/// A made-up book over the usual register: drains, moves of stated amounts and of all, loads,
/// readings, handling, checks and register entries, many of them late, and corrections and
/// strike-outs of any earlier entry. The same seed makes the same book.
struct RandomBook {
  std::vector<Step> steps;
  /// The same book as if everything had been entered right at once: entries as corrected, and
  /// nothing at all in the place of struck ones and of corrections.
  std::vector<Posting> right_at_once;
};
enum class Amending { kNone, kMany };
RandomBook random_book(std::uint64_t seed, int entries, Amending amending);

void apply(State& state, const Step& step);
State fold(const std::vector<Step>& steps);
State fold(const std::vector<Posting>& postings);

/// A moment within or around the time such a book covers.
base::Instant random_moment(std::mt19937_64& random);
/// 0 … below - 1, the same on every library.
std::uint64_t pick(std::mt19937_64& random, std::uint64_t below);

}  // namespace benchwarden::tallies
