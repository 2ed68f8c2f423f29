#include "access/pin_hasher.h"

#include <sodium.h>

#include <array>
#include <chrono>
#include <utility>

namespace benchwarden::access {

PinHasher::PinHasher(Pepper pepper, const HashCost& cost)
    : pepper_(std::move(pepper)),
      cost_(cost),
      gate_({cost.at_once_max, cost.waiting_max, std::chrono::milliseconds(cost.wait_ms_max)}) {}

std::optional<base::Gate::Place> PinHasher::take_slot() { return gate_.enter(); }

base::Result<std::string> PinHasher::hash(const base::Gate::Place&, std::string_view pin) {
  ++made_;
  const auto marked = pepper_.mark(pin);
  std::array<char, crypto_pwhash_STRBYTES> text{};
  const int failed = crypto_pwhash_str_alg(
      text.data(), reinterpret_cast<const char*>(marked.data()), marked.size(), cost_.passes,
      cost_.memory_bytes, crypto_pwhash_ALG_ARGON2ID13);
  if (failed != 0) return base::Error{base::ErrorCode::kUnavailable, "no memory to hash a PIN"};
  return std::string(text.data());
}

bool PinHasher::matches(const base::Gate::Place&, const std::string& hash, std::string_view pin) {
  ++made_;
  const auto marked = pepper_.mark(pin);
  return crypto_pwhash_str_verify(hash.c_str(), reinterpret_cast<const char*>(marked.data()),
                                  marked.size()) == 0;
}

bool PinHasher::is_outdated(const std::string& hash) const {
  return crypto_pwhash_str_needs_rehash(hash.c_str(), cost_.passes, cost_.memory_bytes) != 0;
}

}  // namespace benchwarden::access
