#pragma once

#include <optional>

#include "http/message.h"
#include "http/request_head.h"

namespace benchwarden::http {

/// Refuses a head that two readers could understand differently. 400, 501.
std::optional<Response> framing_refusal(const RequestHead& head);

}  // namespace benchwarden::http
