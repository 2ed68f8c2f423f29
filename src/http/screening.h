#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "http/host_list.h"
#include "http/message.h"
#include "http/request_head.h"
#include "http/route.h"

namespace benchwarden::http {

/// What every request is measured against before anything reads it.
struct ScreeningRules {
  HostList hosts;
  /// Those that a proxy speaks TLS for: what comes to them counts as come by TLS.
  HostList tls_hosts;
  std::string session_cookie;
  std::string device_cookie;
  std::size_t body_bytes_max = 0;
};

/// Framing first, since a head that can be read in two ways must not be acted on at all: one
/// Host, no Transfer-Encoding, at most one Content-Length of digits, token names, no control
/// bytes, a target that is a path; then Host by name. Gives the request without its body.
/// 400, 421, 501.
base::Result<Request, Response> screen_head(const RequestHead& head, const ScreeningRules& rules);

/// Who may send this from where, and whether its body may be read: Origin and Sec-Fetch-Site for
/// methods that can change something, length, content type. `own`: what the route says of its body,
/// nullptr for JSON of the usual length. 400, 403, 411, 413, 415.
std::optional<Response> screen_body(const RequestHead& head, const Request& request,
                                    const ScreeningRules& rules, const OwnBody* own);

}  // namespace benchwarden::http
