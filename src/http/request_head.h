#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "http/message.h"

namespace benchwarden::http {

/// A request line and its header fields as they came in, nothing checked yet.
struct RequestHead {
  std::string method;
  std::string target;
  std::string version;
  HeaderFields fields;
  std::string peer;
  bool is_tls = false;
};

/// How often a field was sent; names in any case.
std::size_t count_field(const RequestHead& head, std::string_view name);
/// The first value of that name without surrounding blanks, or empty.
std::string_view field(const RequestHead& head, std::string_view name);

/// Without blanks and tabs around it.
std::string_view trimmed(std::string_view text);

/// POST, PUT and PATCH carry a body; others must not.
bool carries_body(const RequestHead& head);
/// The one Content-Length, when it is nothing but digits and fits.
std::optional<std::size_t> declared_length(const RequestHead& head);
/// Certainly no byte follows the head: only then may the connection live on unread.
bool is_body_absent(const RequestHead& head);

}  // namespace benchwarden::http
