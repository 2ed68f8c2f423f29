#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "http/query.h"

namespace benchwarden::http {

using HeaderFields = std::vector<std::pair<std::string, std::string>>;

/// What the caller shows to say who they are. Where an Authorization header is given the cookie is
/// not looked at, so that "came by cookie" (and needs an Origin) is decided in one place.
struct Credential {
  enum class From { kBearer, kCookie };
  std::string token;
  From from = From::kBearer;
};

/// One request after screening: framing, host, origin and content type have been checked.
struct Request {
  std::string method;  ///< as sent: "GET", "HEAD", "POST" …
  std::string path;    ///< as sent, percent-encoded, without the query
  Query query;
  std::string host;
  std::string origin;         ///< empty when not sent
  std::string content_type;   ///< empty when not sent
  std::string if_none_match;  ///< empty when not sent
  std::string accept_encoding;
  std::optional<Credential> credential;
  std::optional<std::string> device_secret;  ///< from its cookie, which counts like a session's
  std::string body;
  std::string peer;     ///< address of the other end, without port
  bool is_tls = false;  ///< to us, or to a proxy of ours
};

/// Bytes made for this answer, bytes shared with others, or bytes embedded in the executable.
using Body = std::variant<std::string, std::shared_ptr<const std::string>, std::string_view>;

struct Response {
  int status = 200;
  std::string content_type = "application/json";
  /// Added to the usual ones; a field given here replaces the usual one of that name.
  HeaderFields headers;
  Body body;
};

std::string_view body_bytes(const Response& response);

}  // namespace benchwarden::http
