#pragma once

#include <string_view>

namespace benchwarden::http {

/// Whether an Accept-Encoding takes gzip (RFC 9110 section 12.5.3): by name, or by "*" where it is
/// not named; not with a weight of zero, nor with one that is none.
bool accepts_gzip(std::string_view accept_encoding);

}  // namespace benchwarden::http
