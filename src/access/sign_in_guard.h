#pragma once

#include <cstdint>
#include <string_view>

#include "access/lock_out.h"
#include "base/result.h"
#include "base/timestamp.h"
#include "sqlite/database.h"

namespace benchwarden::access {

/// Stands for every unknown or inactive person: counted, never shut out.
constexpr std::int64_t kNobody = 0;

/// Who tries, and from where.
struct Trier {
  std::int64_t person = kNobody;
  std::string_view address;  ///< or the id of a paired device
  bool is_apart = false;     ///< counted by itself although the person never signed in there
};

/// Before a PIN is looked at, the try is counted as a wrong one and stored; a right PIN clears the
/// count. So neither two tries at once nor a crash in the middle gives a free guess. An address the
/// person has signed in from has a count of its own; all others share one. Answers for how many
/// milliseconds the person may not try from there, in which case nothing is counted.
base::Result<std::optional<std::int64_t>> charge_try(sqlite::Database& database, const Trier& trier,
                                                     base::Instant now, const LockOut& rules);

/// Clears the count the try went to, and remembers the address; of each person the
/// `addresses_kept` used last.
base::Status<> note_right_pin(sqlite::Database& database, const Trier& trier, base::Instant now,
                              int addresses_kept);

/// Forgets all counts and addresses of a person.
base::Status<> clear_failures(sqlite::Database& database, std::int64_t person);

}  // namespace benchwarden::access
