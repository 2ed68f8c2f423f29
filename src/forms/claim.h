#pragma once

#include <optional>
#include <string>

#include "base/json.h"
#include "entries/refusal.h"

namespace benchwarden::forms {

/// In whose name a submission comes. It is about the signature and no part of what is said: the
/// same entry may come again without it.
struct Claim {
  std::optional<std::string> person;  ///< none: whoever is signed in
  bool claimed = false;               ///< chosen from a list, without a PIN
};

/// Reads the members `person` and `claimed`; null means absent.
Claim read_claim(const base::Json& submission, entries::Refusals& refusals);

}  // namespace benchwarden::forms
