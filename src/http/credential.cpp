#include "http/credential.h"

#include <string>
#include <vector>

#include "http/host_list.h"
#include "http/problem.h"

namespace benchwarden::http {
namespace {

std::optional<Credential> bearer_of(std::string_view authorization) {
  constexpr std::string_view kScheme = "bearer ";
  if (ascii_lower(authorization.substr(0, kScheme.size())) != kScheme) {
    return std::nullopt;
  }
  const std::string_view rest = authorization.substr(kScheme.size());
  const std::size_t start = rest.find_first_not_of(' ');
  if (start == std::string_view::npos) {
    return std::nullopt;
  }
  return Credential{std::string(rest.substr(start)), Credential::From::kBearer};
}

std::vector<std::string> cookies_named(std::string_view cookies, std::string_view name) {
  std::vector<std::string> values;
  while (!cookies.empty()) {
    const std::size_t end = cookies.find(';');
    std::string_view pair = cookies.substr(0, end);
    cookies = end == std::string_view::npos ? std::string_view() : cookies.substr(end + 1);
    while (!pair.empty() && pair.front() == ' ') {
      pair.remove_prefix(1);
    }
    const std::size_t equals = pair.find('=');
    if (equals != std::string_view::npos && pair.substr(0, equals) == name) {
      values.emplace_back(pair.substr(equals + 1));
    }
  }
  return values;
}

/// Its value; nothing where it is missing or empty, and a 400 where it was sent twice.
base::Result<std::optional<std::string>, Response> one_cookie(const RequestHead& head,
                                                              std::string_view name,
                                                              const std::string& what) {
  std::vector<std::string> values = cookies_named(field(head, "Cookie"), name);
  if (values.size() > 1) {
    return problem(ProblemType::kMalformed, "The " + what + " was sent more than once.");
  }
  if (values.empty() || values.front().empty()) {
    return std::optional<std::string>();
  }
  return std::optional<std::string>(std::move(values.front()));
}

}  // namespace

std::string cookie_name(const std::string& plain, bool is_tls) {
  return is_tls ? "__Host-" + plain : plain;
}

base::Result<std::optional<Credential>, Response> read_credential(const RequestHead& head,
                                                                  std::string_view session_cookie) {
  if (count_field(head, "Authorization") != 0) {
    return bearer_of(field(head, "Authorization"));
  }
  auto token = one_cookie(head, session_cookie, "session cookie");
  if (!token) {
    return token.error();
  }
  if (!*token) {
    return std::optional<Credential>();
  }
  return std::optional<Credential>(Credential{std::move(**token), Credential::From::kCookie});
}

base::Result<std::optional<std::string>, Response> read_device_secret(
    const RequestHead& head, std::string_view device_cookie) {
  if (count_field(head, "Authorization") != 0) {
    return std::optional<std::string>();
  }
  return one_cookie(head, device_cookie, "cookie of the paired device");
}

}  // namespace benchwarden::http
