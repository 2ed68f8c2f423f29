#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>

namespace benchwarden::access {

/// How long wrong PINs shut a person out. From `first_failures` on, every further wrong PIN costs
/// the first wait, from `second_failures` on the second one, from `third_failures` on the third.
/// 1 <= first <= second <= third, waits 0 or longer. No wait is for ever: a stranger who knows
/// nothing but the name on the sign-in page could else take the book from anybody.
struct LockOut {
  int first_failures = 5;
  std::int64_t first_wait_ms = 30'000;
  int second_failures = 8;
  std::int64_t second_wait_ms = 300'000;
  int third_failures = 10;
  std::int64_t third_wait_ms = 3'600'000;
  /// Addresses a person has signed in from, each with a count of its own; the rest share one.
  int addresses_kept = 8;
};

/// A session ends `idle_ms` after its last use and `absolute_ms` after signing in. Both above 0.
struct SessionLife {
  std::int64_t idle_ms = 0;
  std::int64_t absolute_ms = 0;
};

struct SessionSettings {
  SessionLife technician{4LL * 3'600'000, 12LL * 3'600'000};
  SessionLife manager{1'800'000, 8LL * 3'600'000};
  SessionLife inspector{1'800'000, 8LL * 3'600'000};
  /// Last use is kept in memory and written this often: after a restart a session may end that
  /// much earlier, never later.
  std::int64_t last_seen_every_ms = 60'000;
  /// How soon a change made by another process (`benchwarden person`) is noticed.
  std::int64_t foreign_change_within_ms = 1'000;
  std::size_t cached_max = 256;
  int per_person_max = 32;  ///< one more ends the one unused for longest
  /// How long a person counts as having shown just now who they are.
  std::int64_t confirmed_ms = 300'000;
};

/// Argon2id: RFC 9106 section 4, second recommended option, but with one lane, as libsodium has it.
struct HashCost {
  unsigned long long passes = 3;
  std::size_t memory_bytes = std::size_t{64} * 1024 * 1024;
  int at_once_max = 2;               ///< more wait in line, so that memory stays bounded
  std::int64_t wait_ms_max = 5'000;  ///< and are turned away after this
  int waiting_max = 16;              ///< or at once when the line is this long
  int per_address_max = 1;           ///< running or in line of one address; loopback is free
};

struct Settings {
  LockOut lock_out;
  SessionSettings sessions;
  HashCost hash_cost;
  int refusals_kept = 1'000;  ///< of each reason
  int sign_ins_kept = 10'000;
  int changes_kept = 10'000;
  /// Wrong codes until one is spent, from all addresses together: of 30^8, one in six million is
  /// tried, and no stranger spends a code within the time it is good for.
  int setup_tries = 100'000;
  int pairing_tries = 100'000;
  std::int64_t setup_code_every_ms = 60'000;  ///< no more often is the next one shown
  std::int64_t pairing_ms = 600'000;          ///< how long a pairing code can be used
  int inspection_days_max = 30;
  int token_days_max = 366;
  int passphrases_a_day = 3;                   ///< of one person; the book is told of each
  std::int64_t device_seen_every_ms = 60'000;  ///< last use of a device is written this often
  /// Called with the next set-up code once the one before is spent, from the thread that tried.
  /// Without it that next code comes from `setup_code`.
  std::function<void(const std::string& code)> show_setup_code;
};

}  // namespace benchwarden::access
