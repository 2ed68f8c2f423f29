#include "http/dispatcher.h"

#include <algorithm>
#include <exception>
#include <utility>

#include "base/json.h"
#include "base/text.h"
#include "http/problem.h"
#include "http/response_headers.h"

namespace benchwarden::http {
namespace {

Response not_allowed(const std::string& allow) {
  Response response = problem(ProblemType::kMethodNotAllowed, "Allowed here: " + allow + ".");
  response.headers.emplace_back("Allow", allow);
  return response;
}

std::string allow_list(const std::vector<Method>& methods) {
  std::string list;
  for (const Method method : methods) {
    list += list.empty() ? "" : ", ";
    list += method == Method::kGet ? "GET, HEAD" : method_name(method);
  }
  return list;
}

/// A name that the route does not read would be passed over, and the answer be taken for another.
std::vector<ProblemError> unknown_names(const Query& query, const std::vector<std::string>& known) {
  std::vector<ProblemError> errors;
  const std::string accepted = known.empty() ? "no query" : base::join(known, ", ");
  for (const auto& [name, value] : query.items()) {
    if (std::find(known.begin(), known.end(), name) != known.end()) continue;
    errors.push_back({"/query/" + base::pointer_token(name), "unknown_name",
                      "'" + name + "' is not known here; accepted: " + accepted});
  }
  return errors;
}

/// Inspectors change nothing but their own sign-in, and see what their access is for.
bool inspector_may(const RouteMatch& match, const Request& request,
                   const access::Session& session) {
  const bool changes = match.route->effect == Effect::kWrites;
  if (!session.inspection) return false;
  if (changes && match.route->shows != Shows::kNothing) return false;
  return route_in_scope(session.inspection->scope, match.route->shows, [&](std::string_view name) {
    for (const auto& [part, value] : match.parts) {
      if (part == name) return std::string_view(value);
    }
    const std::string* asked = request.query.find(name);
    return asked == nullptr ? std::string_view() : std::string_view(*asked);
  });
}

/// Why the route is not for whoever is signed in; none where it is.
std::optional<std::string> beyond(const RouteMatch& match, const Request& request,
                                  const access::Session& session) {
  const Who& wanted = match.route->who;
  if (session.script && !wanted.admits_script(*session.script)) {
    return "Not for the token of a script.";
  }
  if (!wanted.admits(session.role)) return "Not for the role of the person signed in.";
  if (session.role == access::Role::kInspector && !inspector_may(match, request, session)) {
    return "Not within the access that is given.";
  }
  return std::nullopt;
}

}  // namespace

Dispatcher::Dispatcher(Application application)
    : application_(std::move(application)),
      routes_(application_.routes),
      files_(application_.files),
      rates_(application_.rates ? std::make_unique<RateLimits>(*application_.rates) : nullptr) {}

base::Result<Target, Response> Dispatcher::find(std::string_view method,
                                                std::string_view path) const {
  if (const StaticAnswer* file = files_.find(path)) {
    if (method_from_name(method) == Method::kGet) {
      return Target(FileMatch{file});
    }
    return not_allowed("GET, HEAD");
  }
  std::variant<RouteMatch, RouteMiss> found = routes_.find(method, path);
  if (auto* match = std::get_if<RouteMatch>(&found)) {
    return Target(std::move(*match));
  }
  const std::vector<Method>& allowed = std::get<RouteMiss>(found).allowed;
  if (allowed.empty()) {
    return problem(ProblemType::kNotFound, "There is nothing under this path.");
  }
  return not_allowed(allow_list(allowed));
}

base::Result<Caller, Answer> Dispatcher::admit(const RouteMatch& match,
                                               const Request& request) const {
  Caller caller;
  if (request.device_secret && application_.recognise_device) {
    caller.device = application_.recognise_device(request);
  }
  const Who& wanted = match.route->who;
  if (wanted.is_open()) {
    return caller;
  }
  if (request.credential && application_.authenticate) {
    caller.who = application_.authenticate(request);
  }
  if (wanted.admits_devices() && caller.device) {
    return caller;
  }
  if (!caller.who) {
    return Answer{problem(ProblemType::kUnauthenticated, "Sign in first."), ""};
  }
  if (const auto refusal = beyond(match, request, caller.who->session)) {
    note_refused("role", request.peer, caller.who->session.person);
    return Answer{problem(ProblemType::kForbidden, *refusal), caller.who->session.person};
  }
  if (wanted.wants_confirmation() && !caller.who->session.is_confirmed) {
    return Answer{confirmation_needed(), caller.who->session.person};
  }
  return caller;
}

// Behind a proxy all have one address.
std::string Dispatcher::rate_key(const Request& request) const {
  if (request.device_secret && application_.recognise_device) {
    if (const auto device = application_.recognise_device(request)) return device->id;
  }
  if (request.credential && application_.authenticate) {
    const auto who = application_.authenticate(request);
    if (who && !who->session.id.empty()) return who->session.id;
  }
  return request.peer;
}

std::optional<Response> Dispatcher::rate_refusal(const Request& request) const noexcept {
  try {
    if (rates_ == nullptr) return std::nullopt;
    if (rates_->settings().spares_this_machine && access::is_loopback(request.peer)) {
      return std::nullopt;
    }
    const auto wait_s = rates_->take(rate_key(request), std::chrono::steady_clock::now());
    if (!wait_s) return std::nullopt;
    note_refused("rate", request.peer);
    Response refusal = problem(ProblemType::kTooMany, "Come again a little later.");
    refusal.headers.emplace_back("Retry-After", std::to_string(*wait_s));
    return refusal;
  } catch (...) {
    return std::nullopt;  // `answer` meets the same fault, and tells it
  }
}

std::optional<Answer> Dispatcher::refusal_of(const RouteMatch& match,
                                             const Request& request) const noexcept {
  try {
    auto caller = admit(match, request);
    if (caller) return std::nullopt;
    return caller.error();
  } catch (...) {
    // `answer` meets the same fault, and tells it.
    return std::nullopt;
  }
}

Answer Dispatcher::call(const RouteMatch& match, const Request& request) const {
  auto admitted = admit(match, request);
  if (!admitted) return admitted.error();
  Caller caller = *std::move(admitted);
  std::string person = caller.who ? caller.who->session.person : "";
  const std::vector<ProblemError> unknown = unknown_names(request.query, match.route->query);
  if (!unknown.empty()) {
    return {problem(ProblemType::kRefused, unknown.front().detail, unknown), std::move(person)};
  }
  Response response = match.route->handler(request, Context(match.parts, std::move(caller)));
  return {std::move(response), std::move(person)};
}

Answer Dispatcher::answer(const Target& target, const Request& request) const noexcept {
  Answer answer;
  try {
    const auto* file = std::get_if<FileMatch>(&target);
    answer = file != nullptr ? Answer{file->answer->to(request.accept_encoding), ""}
                             : call(std::get<RouteMatch>(target), request);
    if (has_clean_fields(answer.response)) {
      if (method_from_name(request.method) == Method::kGet) {
        answer.response = unless_unchanged(std::move(answer.response), request.if_none_match);
      }
      return answer;
    }
    log_fault(pattern_of(target, request) + ": a header of the answer held a control character");
  } catch (const std::exception& thrown) {
    log_fault(pattern_of(target, request) + ": " + thrown.what());
  } catch (...) {
    log_fault(pattern_of(target, request) + ": something unknown was thrown");
  }
  answer.response =
      problem(ProblemType::kInternal, "The fault was noted in the log of the server.");
  return answer;
}

std::string Dispatcher::pattern_of(const Target& target, const Request& request) {
  const auto* match = std::get_if<RouteMatch>(&target);
  return match != nullptr ? match->route->pattern : request.path;
}

void Dispatcher::log(const AccessLine& line) const noexcept {
  try {
    if (application_.access_log) {
      application_.access_log(line);
    }
  } catch (...) {
    log_fault("the access log threw");
  }
}

void Dispatcher::note_refused(const std::string& reason, const std::string& peer,
                              const std::string& person) const noexcept {
  try {
    if (application_.note_refused) application_.note_refused(reason, peer, person);
  } catch (...) {
    log_fault("a refusal could not be noted");
  }
}

void Dispatcher::log_fault(const std::string& line) const noexcept {
  try {
    if (application_.fault_log) {
      application_.fault_log(line);
    }
  } catch (...) {
    // There is nowhere left to say it; the answer still goes out.
    return;
  }
}

}  // namespace benchwarden::http
