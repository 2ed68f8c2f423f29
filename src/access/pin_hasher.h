#pragma once

#include <atomic>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "access/pepper.h"
#include "access/settings.h"
#include "base/gate.h"
#include "base/result.h"

namespace benchwarden::access {

/// Argon2id over the HMAC of the PIN under the pepper. A hash is libsodium's text form, which
/// carries its own salt and cost. Each hashing wants a place inside the gate.
class PinHasher {
 public:
  PinHasher(Pepper pepper, const HashCost& cost);

  std::optional<base::Gate::Place> take_slot();  ///< none: too busy, or closed
  /// Turns away who waits for a slot and who comes.
  void close() { gate_.close(); }

  /// kUnavailable when there is no memory for it.
  base::Result<std::string> hash(const base::Gate::Place& slot, std::string_view pin);
  bool matches(const base::Gate::Place& slot, const std::string& hash, std::string_view pin);
  /// A hash of today's cost that no PIN has: checked for whom nobody knows, so that it takes as
  /// long as for somebody. Made up, not reckoned, since every start would wait for that.
  [[nodiscard]] std::string stand_in() const;
  /// Made at another cost than today's.
  [[nodiscard]] bool is_outdated(const std::string& hash) const;

  [[nodiscard]] std::uint64_t made() const { return made_; }
  [[nodiscard]] int most_at_once() const { return gate_.most_inside(); }

 private:
  Pepper pepper_;
  HashCost cost_;
  base::Gate gate_;
  std::atomic<std::uint64_t> made_ = 0;
};

}  // namespace benchwarden::access
