#include "access/pin_hasher.h"

#include <sodium.h>

#include <array>
#include <chrono>
#include <utility>

#include "base/base64.h"

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

std::string PinHasher::stand_in() const {
  const auto random_text = [](std::size_t bytes) {
    std::string drawn(bytes, '\0');
    randombytes_buf(drawn.data(), drawn.size());
    std::string text = base::to_base64(drawn);
    text.erase(text.find_last_not_of('=') + 1);
    return text;
  };
  // RFC 9106, section 3.1, in the text form that libsodium reads: salt and tag without padding.
  constexpr std::size_t kTagBytes = 32;
  return "$argon2id$v=19$m=" + std::to_string(cost_.memory_bytes / 1024) +
         ",t=" + std::to_string(cost_.passes) + ",p=1$" + random_text(crypto_pwhash_SALTBYTES) +
         "$" + random_text(kTagBytes);
}

bool PinHasher::is_outdated(const std::string& hash) const {
  return crypto_pwhash_str_needs_rehash(hash.c_str(), cost_.passes, cost_.memory_bytes) != 0;
}

}  // namespace benchwarden::access
