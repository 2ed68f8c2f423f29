#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "http/message.h"
#include "http/request_head.h"

namespace benchwarden::http {

/// What a cookie of ours is called: where TLS is spoken, by a name that nobody else can set it
/// under, from another port, a host below ours or plain HTTP (RFC 6265bis, the prefix `__Host-`).
std::string cookie_name(const std::string& plain, bool is_tls);

/// A bearer token if there is an Authorization header, else the session cookie, else nothing.
/// The error is a 400: the session cookie sent twice.
base::Result<std::optional<Credential>, Response> read_credential(const RequestHead& head,
                                                                  std::string_view session_cookie);

/// The secret of a paired device, from its cookie. Nothing beside an Authorization header, as with
/// the session cookie. The error is a 400: the cookie sent twice.
base::Result<std::optional<std::string>, Response> read_device_secret(
    const RequestHead& head, std::string_view device_cookie);

}  // namespace benchwarden::http
