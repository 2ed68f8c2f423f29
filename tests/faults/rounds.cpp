#include "faults/rounds.h"

#include <cstdlib>
#include <iostream>

namespace benchwarden::testing {

std::uint64_t from_environment(const char* variable, std::uint64_t otherwise) {
  const char* text = std::getenv(variable);
  return text == nullptr ? otherwise : std::stoull(text);
}

Rounds::Rounds(const char* variable, int usual)
    : count_(static_cast<int>(from_environment(variable, static_cast<std::uint64_t>(usual)))),
      seed_(from_environment("BENCHWARDEN_SEED", std::random_device{}())) {
  std::cout << variable << '=' << count_ << " BENCHWARDEN_SEED=" << seed_ << '\n';
}

bool Rounds::next() {
  if (number_ + 1 >= count_) return false;
  ++number_;
  random_.seed(seed_ + static_cast<std::uint64_t>(number_));
  return true;
}

std::string Rounds::where() const {
  return " in round " + std::to_string(number_) + " of BENCHWARDEN_SEED=" + std::to_string(seed_);
}

}  // namespace benchwarden::testing
