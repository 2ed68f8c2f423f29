#pragma once

#include <string_view>

#include "base/result.h"

namespace benchwarden::access {

/// kInvalid unless `pin` is 6 to 12 ASCII digits that are not all the same and do not run up or
/// down by one (9 and 0 being neighbours). The detail never repeats the PIN.
base::Status<> check_pin(std::string_view pin);

/// kInvalid unless `passphrase` has 12 to 128 characters, 5 different ones or more among them, and
/// can be typed: UTF-8 without signs that are not seen. The detail never repeats it.
base::Status<> check_passphrase(std::string_view passphrase);

}  // namespace benchwarden::access
