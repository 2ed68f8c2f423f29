#pragma once

#include <string>
#include <string_view>

namespace benchwarden::base {

/// RFC 4648 section 4, with padding.
std::string to_base64(std::string_view bytes);

}  // namespace benchwarden::base
