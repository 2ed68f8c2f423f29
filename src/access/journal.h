#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "access/access.h"
#include "base/result.h"
#include "base/timestamp.h"
#include "sqlite/database.h"

namespace benchwarden::access {

/// Bounded lists, the newest kept: refusals, sign-ins, and changes to who may come in. None holds a
/// PIN, a token or what was typed as a person's id.
struct NewRefusal {
  base::Instant at;
  std::optional<std::int64_t> person;
  std::string_view reason;
  std::string_view address;
};
base::Status<> note_refusal(sqlite::Database& database, const NewRefusal& refusal, int kept);
base::Status<> note_sign_in(sqlite::Database& database, base::Instant at, std::int64_t person,
                            Place place, int kept);
/// What happened that often in the quarter of an hour of `at`.
base::Status<> count_access(sqlite::Database& database, base::Instant at, std::string_view what,
                            std::uint64_t times = 1);

/// What a change was about beside a person.
struct About {
  std::optional<std::string_view> name = {};   ///< of a device, as people know it
  std::optional<std::string_view> thing = {};  ///< its id, as the book knows it
};
struct NewChange {
  base::Instant at;
  std::string_view by;
  std::int64_t person = 0;
  std::string_view what;
  About about = {};
};
base::Status<> note_change(sqlite::Database& database, const NewChange& change, int kept);

base::Result<std::vector<Refusal>> all_refusals(sqlite::Database& database);  ///< newest first
base::Result<std::vector<Change>> all_changes(sqlite::Database& database);    ///< newest first

}  // namespace benchwarden::access
