#include "http/screening.h"

#include <algorithm>
#include <utility>

#include "base/text.h"
#include "http/credential.h"
#include "http/framing.h"
#include "http/problem.h"

namespace benchwarden::http {
namespace {

/// Methods a foreign page must not be able to trigger.
bool is_unsafe(const RequestHead& head) {
  return head.method != "GET" && head.method != "HEAD" && head.method != "OPTIONS";
}

bool is_our_origin(const Request& request) {
  return ascii_lower(request.origin) ==
         (request.is_tls ? "https://" : "http://") + ascii_lower(request.host);
}

/// Whether a browser may have added what lets the request in, of its own accord.
bool came_by_cookie(const Request& request) {
  return request.device_secret ||
         (request.credential && request.credential->from == Credential::From::kCookie);
}

std::optional<Response> forbidden(const std::string& detail) {
  return problem(ProblemType::kForbidden, detail);
}

std::optional<Response> origin_refusal(const RequestHead& head, const Request& request) {
  if (!is_unsafe(head)) {
    return std::nullopt;
  }
  if (count_field(head, "Origin") != 0 && !is_our_origin(request)) {
    return forbidden("The request comes from a page of another origin.");
  }
  if (count_field(head, "Origin") == 0 && came_by_cookie(request)) {
    return forbidden("A request with a cookie of ours must name its Origin.");
  }
  if (count_field(head, "Sec-Fetch-Site") != 0 && field(head, "Sec-Fetch-Site") != "same-origin") {
    return forbidden("The request was started by a page of another site.");
  }
  return std::nullopt;
}

std::optional<Response> length_refusal(const RequestHead& head, std::size_t bytes_max) {
  if (!carries_body(head)) {
    return is_body_absent(head) ? std::nullopt
                                : std::optional<Response>(problem(ProblemType::kMalformed,
                                                                  "This method carries no body."));
  }
  const std::optional<std::size_t> length = declared_length(head);
  if (!length) {
    return problem(ProblemType::kLengthRequired, "Say the length of the body in Content-Length.");
  }
  if (*length > bytes_max) {
    return problem(ProblemType::kTooLarge,
                   "The body may have " + std::to_string(bytes_max) + " bytes at most.");
  }
  return std::nullopt;
}

std::optional<Response> type_refusal(const RequestHead& head, const Request& request,
                                     const std::vector<std::string>& types) {
  if (!carries_body(head)) {
    return std::nullopt;
  }
  std::string type = ascii_lower(request.content_type.substr(0, request.content_type.find(';')));
  type.erase(type.find_last_not_of(" \t") + 1);
  if (std::find(types.begin(), types.end(), type) == types.end()) {
    return problem(ProblemType::kUnsupportedMediaType,
                   "Send the body as " + base::join(types, " or ") + ".");
  }
  return std::nullopt;
}

}  // namespace

base::Result<Request, Response> screen_head(const RequestHead& head, const ScreeningRules& rules) {
  if (std::optional<Response> refusal = framing_refusal(head)) {
    return std::move(*refusal);
  }
  if (!rules.hosts.contains(field(head, "Host"))) {
    return problem(ProblemType::kMisdirected, "This server does not answer under that name.");
  }
  const std::size_t question = head.target.find('?');
  base::Result<Query> query = parse_query(
      question == std::string::npos ? "" : std::string_view(head.target).substr(question + 1));
  if (!query) {
    return problem(ProblemType::kMalformed, query.error().detail);
  }
  const bool is_tls = head.is_tls || rules.tls_hosts.contains(field(head, "Host"));
  auto credential = read_credential(head, cookie_name(rules.session_cookie, is_tls));
  if (!credential) {
    return credential.error();
  }
  auto device_secret = read_device_secret(head, cookie_name(rules.device_cookie, is_tls));
  if (!device_secret) {
    return device_secret.error();
  }
  Request request;
  request.method = head.method;
  request.path = head.target.substr(0, question);
  request.query = std::move(*query);
  request.host = field(head, "Host");
  request.origin = field(head, "Origin");
  request.content_type = field(head, "Content-Type");
  request.if_none_match = field(head, "If-None-Match");
  request.accept_encoding = field(head, "Accept-Encoding");
  request.credential = std::move(*credential);
  request.device_secret = std::move(*device_secret);
  request.peer = head.peer;
  request.is_tls = is_tls;
  return request;
}

std::optional<Response> screen_body(const RequestHead& head, const Request& request,
                                    const ScreeningRules& rules, const OwnBody* own) {
  static const std::vector<std::string> kJson{"application/json"};
  if (std::optional<Response> refusal = origin_refusal(head, request)) {
    return refusal;
  }
  if (std::optional<Response> refusal =
          length_refusal(head, own != nullptr ? own->bytes_max : rules.body_bytes_max)) {
    return refusal;
  }
  return type_refusal(head, request, own != nullptr ? own->types : kJson);
}

}  // namespace benchwarden::http
