#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "workshop/ports.h"

namespace benchwarden::workshop {

/// A change to who may come in, as the book is told it: ids, never names or secrets.
struct AccessChange {
  base::Uuid entry;  ///< under which it is told, so that telling it again changes nothing
  base::Instant at;
  std::string act;
  std::string done_by;
  std::string account;
  std::optional<std::string> thing = {};
  std::optional<std::string> role = {};
  std::optional<std::string> scope = {};
  std::optional<base::Instant> until = {};
};
base::Status<> tell_access_change(const Ports& ports, const AccessChange& change);

/// What a day's log of sign-ins and refusals comes to.
struct AccessDay {
  std::map<std::string, std::uint64_t> counts;  ///< by the names of the fields of `access-day`
  std::uint64_t lines = 0;
  std::string digest;  ///< SHA-256 of the lines, in hex
};
base::Status<> tell_access_day(const Ports& ports, base::CivilDate day, const AccessDay& told);

/// Whether the book has an entry of that day.
base::Result<bool> is_day_told(const Ports& ports, base::CivilDate day);

}  // namespace benchwarden::workshop
