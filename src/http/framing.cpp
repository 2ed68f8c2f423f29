#include "http/framing.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "http/problem.h"

namespace benchwarden::http {
namespace {

/// Fields that decide what happens; a second one could contradict the first.
constexpr std::array<std::string_view, 8> kOnceOnly = {
    "Host",          "Origin", "Content-Type",  "Content-Length",
    "Authorization", "Cookie", "If-None-Match", "Sec-Fetch-Site"};

bool is_token_character(char c) {
  constexpr std::string_view kMarks = "!#$%&'*+-.^_`|~";  // RFC 9110 section 5.6.2
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
         kMarks.find(c) != std::string_view::npos;
}

bool is_token(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), is_token_character);
}

bool has_control_byte(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte < 0x20 && c != '\t') || byte == 0x7F;
  });
}

std::optional<Response> malformed(const std::string& detail) {
  return problem(ProblemType::kMalformed, detail);
}

std::optional<Response> line_refusal(const RequestHead& head) {
  if (head.version != "HTTP/1.1" && head.version != "HTTP/1.0") {
    return malformed("Only HTTP/1.1 and HTTP/1.0 are spoken here.");
  }
  if (!is_token(head.method)) {
    return malformed("The method is not a token.");
  }
  if (head.target.empty() || head.target.front() != '/' || has_control_byte(head.target) ||
      head.target.find('#') != std::string::npos) {
    return malformed("The request target must be a path that begins with a slash.");
  }
  return std::nullopt;
}

std::optional<Response> fields_refusal(const RequestHead& head) {
  for (const auto& [name, value] : head.fields) {
    if (!is_token(name)) {
      return malformed("A header field has a name that is not a token.");
    }
    if (has_control_byte(value)) {
      return malformed("A header field holds a control character.");
    }
  }
  for (const std::string_view name : kOnceOnly) {
    if (count_field(head, name) > 1) {
      return malformed("The header field " + std::string(name) + " was sent more than once.");
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<Response> framing_refusal(const RequestHead& head) {
  if (std::optional<Response> refusal = line_refusal(head)) {
    return refusal;
  }
  if (std::optional<Response> refusal = fields_refusal(head)) {
    return refusal;
  }
  const bool has_length = count_field(head, "Content-Length") != 0;
  if (count_field(head, "Transfer-Encoding") != 0) {
    return has_length ? malformed("Content-Length and Transfer-Encoding exclude each other.")
                      : problem(ProblemType::kTransferEncoding,
                                "Send the body whole, with its Content-Length.");
  }
  if (has_length && !declared_length(head)) {
    return malformed("The Content-Length is not a number of bytes.");
  }
  if (field(head, "Host").empty()) {
    return malformed("The header field Host is missing.");
  }
  return std::nullopt;
}

}  // namespace benchwarden::http
