#pragma once

#include <string_view>

#include "http/message.h"

namespace benchwarden::http {

/// RFC 9110 section 13.1.2: the answer's ETag is among those the caller holds already. Then a 304
/// without body takes its place; any other answer is given back as it is.
Response unless_unchanged(Response response, std::string_view if_none_match);

/// The fields every answer carries, with those of the response in place of ours of the same name:
/// what may load from where, no type guessing, no storing.
HeaderFields complete_headers(const Response& response);

/// No line break or other control byte in any header field: it would end the field early.
bool has_clean_fields(const Response& response);

}  // namespace benchwarden::http
