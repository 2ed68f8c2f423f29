#pragma once

#include <optional>
#include <string>

#include "http/message.h"
#include "http/rate_limits.h"

namespace benchwarden::http {

/// Tries of one-time codes of one address. By address and not by code, so that a stranger's wrong
/// ones do not spend the code that somebody else is about to type.
inline constexpr RateSettings kCodeTries{1.0 / 30, 5, 1'024, true};

/// 429 where that address tried too often before; the machine itself, and with it all that comes
/// through a proxy on it, never did.
std::optional<Response> code_try_refusal(RateLimits& tries, const std::string& peer,
                                         RateLimits::Time now);

}  // namespace benchwarden::http
