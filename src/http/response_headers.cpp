#include "http/response_headers.h"

#include <algorithm>
#include <string>

#include "http/host_list.h"

namespace benchwarden::http {
namespace {

/// Scripts, styles and data from here only, nothing inline, no frame around us. The trusted-types
/// policies are the one the app's template library registers, and the app's own, which names the
/// script of its service worker.
constexpr const char* kContentSecurityPolicy =
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; "
    "object-src 'none'; form-action 'self'; frame-ancestors 'none'; "
    "require-trusted-types-for 'script'; trusted-types lit-html benchwarden-worker";

const HeaderFields& usual_fields() {
  // same-origin and not no-referrer: with the latter a form POST names "null" as its Origin.
  static const HeaderFields kFields = {
      {"Cache-Control", "no-store"},
      {"Content-Security-Policy", kContentSecurityPolicy},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Permissions-Policy", "camera=(self), microphone=(), geolocation=()"},
      {"Referrer-Policy", "same-origin"},
      {"X-Content-Type-Options", "nosniff"},
  };
  return kFields;
}

const std::string* find_field(const HeaderFields& fields, std::string_view name) {
  const auto found = std::find_if(fields.begin(), fields.end(), [&](const auto& f) {
    return ascii_lower(f.first) == ascii_lower(name);
  });
  return found == fields.end() ? nullptr : &found->second;
}

bool holds_tag(std::string_view list, std::string_view wanted) {
  while (!list.empty()) {
    const std::size_t end = list.find(',');
    std::string_view tag = list.substr(0, end);
    list = end == std::string_view::npos ? std::string_view() : list.substr(end + 1);
    tag.remove_prefix(std::min(tag.find_first_not_of(" \t"), tag.size()));
    tag = tag.substr(0, tag.find_last_not_of(" \t") + 1);
    if (tag == "*" || tag == wanted || (tag.starts_with("W/") && tag.substr(2) == wanted)) {
      return true;
    }
  }
  return false;
}

bool would_break_line(std::string_view text) {
  return std::any_of(text.begin(), text.end(),
                     [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
}

}  // namespace

Response unless_unchanged(Response response, std::string_view if_none_match) {
  const std::string* tag = find_field(response.headers, "ETag");
  if (response.status != 200 || tag == nullptr || !holds_tag(if_none_match, *tag)) {
    return response;
  }
  response.status = 304;
  // It tells of the bytes that are not sent (RFC 9110 section 15.4.5).
  std::erase_if(response.headers, [](const auto& f) { return f.first == "Content-Encoding"; });
  response.body = std::string();
  return response;
}

HeaderFields complete_headers(const Response& response) {
  HeaderFields fields;
  for (const auto& usual : usual_fields()) {
    if (find_field(response.headers, usual.first) == nullptr) {
      fields.push_back(usual);
    }
  }
  fields.insert(fields.end(), response.headers.begin(), response.headers.end());
  return fields;
}

bool has_clean_fields(const Response& response) {
  return !would_break_line(response.content_type) &&
         std::none_of(response.headers.begin(), response.headers.end(), [](const auto& f) {
           return would_break_line(f.first) || would_break_line(f.second);
         });
}

}  // namespace benchwarden::http
