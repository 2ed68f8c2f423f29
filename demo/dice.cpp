#include "dice.h"

namespace benchwarden::demo {

std::uint64_t Dice::next() {
  state_ += 0x9E3779B97F4A7C15U;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
  z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
  return z ^ (z >> 31U);
}

std::int64_t Dice::between(std::int64_t lowest, std::int64_t highest) {
  const auto span = static_cast<std::uint64_t>(highest - lowest + 1);
  return lowest + static_cast<std::int64_t>(next() % span);
}

}  // namespace benchwarden::demo
