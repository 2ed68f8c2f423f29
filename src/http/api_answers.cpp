#include "http/api_answers.h"

#include <algorithm>
#include <cassert>

#include "http/credential.h"

namespace benchwarden::http {
namespace {

ProblemType type_of(base::ErrorCode code) {
  switch (code) {
    case base::ErrorCode::kInvalid:
      return ProblemType::kRefused;
    case base::ErrorCode::kNotFound:
      return ProblemType::kNotFound;
    case base::ErrorCode::kConflict:
      return ProblemType::kIdConflict;
    case base::ErrorCode::kUnavailable:
      return ProblemType::kUnavailable;
    case base::ErrorCode::kForbidden:
      return ProblemType::kForbidden;
    case base::ErrorCode::kDamaged:
    case base::ErrorCode::kInternal:
      return ProblemType::kInternal;
  }
  return ProblemType::kInternal;
}

}  // namespace

workshop::Actor actor_of(const Context& context) {
  const auto signed_in = sender_of(context).signed_in;
  assert(signed_in.has_value());
  return *signed_in;
}

workshop::Sender sender_of(const Context& context) {
  workshop::Sender sender;
  const Caller& caller = context.caller();
  if (caller.device) sender.device = caller.device->id;
  if (caller.who) {
    const access::Session& session = caller.who->session;
    // No PIN stands behind a token: what it records is a technician's, for its maker to answer for.
    const access::Role role = session.script ? access::Role::kTechnician : session.role;
    sender.signed_in = workshop::Actor{session.person, std::string(access::role_name(role)),
                                       !session.script, sender.device};
    sender.is_confirmed = session.is_confirmed;
  }
  return sender;
}

access::From from_of(const ApiPorts& ports, const Request& request, const Context& context) {
  access::From from;
  from.address = request.peer;
  if (context.caller().device) {
    from.place = access::Place::kDevice;
    from.device = context.caller().device->id;
  } else if (access::is_loopback(request.peer) && !ports.behind_proxy) {
    from.place = access::Place::kMachine;
  }
  return from;
}

std::optional<Response> code_try_refusal(const ApiPorts& ports, const Request& request) {
  auto refusal =
      code_try_refusal(*ports.code_tries, request.peer, std::chrono::steady_clock::now());
  if (refusal) ports.note_refused("rate", request.peer, "");
  return refusal;
}

void note_wrong_code(const ApiPorts& ports, const Request& request, const base::Error& error) {
  if (error.code != base::ErrorCode::kForbidden) return;
  ports.note_refused("wrong-code", request.peer, "");
}

base::Result<base::Instant, Response> start_of_day(const ApiPorts& ports,
                                                   const std::string& pointer,
                                                   const std::string& text) {
  const auto date = base::parse_date(text);
  if (!date) return refused_value(pointer, date.error().detail);
  return workshop::zone_of(*ports.workshop.live.view()).start_of(*date);
}

base::Result<base::Instant, Response> end_of_day(const ApiPorts& ports, const std::string& pointer,
                                                 const std::string& text) {
  const auto date = base::parse_date(text);
  if (!date) return refused_value(pointer, date.error().detail);
  if (!(*date < base::kLastDay)) return refused_value(pointer, text + " lies too far ahead");
  const base::Zone zone = workshop::zone_of(*ports.workshop.live.view());
  return zone.start_of(base::add_days(*date, 1));
}

base::JsonObject person_json(const access::Person& person) {
  return {{"id", person.id}, {"name", person.name}, {"role", access::role_name(person.role)}};
}

base::Json time_or_null(const std::optional<base::Instant>& instant) {
  return instant ? base::Json(base::format_rfc3339_utc(*instant)) : base::Json(nullptr);
}

std::string cookie_header(const Request& request, const std::string& name, const std::string& value,
                          std::int64_t seconds) {
  return cookie_name(name, request.is_tls) + "=" + value +
         "; HttpOnly; SameSite=Strict; Path=/; Max-Age=" + std::to_string(seconds) +
         (request.is_tls ? "; Secure" : "");
}

Response json_answer(int status, const base::Json& body) {
  Response response;
  response.status = status;
  response.body = base::write_json(body);
  return response;
}

Response error_answer(const base::Error& error) {
  Response response = problem(type_of(error.code), error.detail);
  if (error.code == base::ErrorCode::kUnavailable)
    response.headers.emplace_back("Retry-After", "1");
  return response;
}

Response answer_of(const base::Result<base::Json>& result) {
  return result ? json_answer(200, *result) : error_answer(result.error());
}

Response refused_value(const std::string& pointer, const std::string& detail) {
  return problem(ProblemType::kRefused, detail, {{pointer, "bad_value", detail}});
}

Response refused_member(const std::string& pointer, const base::Error& error) {
  const bool of_the_value =
      error.code == base::ErrorCode::kInvalid || error.code == base::ErrorCode::kConflict;
  return of_the_value ? refused_value(pointer, error.detail) : error_answer(error);
}

std::string book_tag(const ApiPorts& ports) {
  const auto state = ports.workshop.live.view();
  const base::CivilDate today = workshop::zone_of(*state).date_of(ports.workshop.clock.now());
  return "\"" + std::to_string(state->size()) + "/" + base::format_date(today) + "\"";
}

Response tagged(Response response, const std::string& tag) {
  response.headers.emplace_back("ETag", tag);
  return response;
}

base::Result<TextMembers, Response> read_text_members(const Request& request,
                                                      const std::vector<std::string>& names) {
  const auto json = base::parse_json(request.body);
  if (!json) return problem(ProblemType::kMalformed, json.error().detail);
  const base::JsonObject* members = json->object();
  if (members == nullptr) return problem(ProblemType::kMalformed, "an object is needed");
  std::vector<ProblemError> errors;
  TextMembers texts;
  for (const std::string& name : names) {
    const base::Json* value = json->find(name);
    const std::string* text = value == nullptr ? nullptr : value->string();
    if (text == nullptr) errors.push_back({"/" + name, "missing", "'" + name + "' must be text"});
    texts.push_back(text == nullptr ? "" : *text);
  }
  for (const auto& [name, value] : *members) {
    if (std::find(names.begin(), names.end(), name) != names.end()) continue;
    errors.push_back(
        {"/" + base::pointer_token(name), "unknown_member", "'" + name + "' is not known here"});
  }
  if (!errors.empty()) {
    return problem(ProblemType::kRefused, "some members cannot be used", errors);
  }
  return texts;
}

base::Result<std::optional<workshop::Viewpoint>, Response> read_viewpoint(const Query& query,
                                                                          std::uint64_t book_size) {
  workshop::Viewpoint view;
  for (const auto& [name, value] : query.items()) {
    if (name == "as_of") {
      const auto time = base::parse_rfc3339(value);
      if (!time) return refused_value("/query/as_of", time.error().detail);
      view.as_of = time->instant;
    } else {
      const auto size = base::Json(base::JsonNumber{value}).integer();
      if (!size || *size < 0 || static_cast<std::uint64_t>(*size) > book_size) {
        return refused_value("/query/known_at",
                             "known_at: '" + value +
                                 "' is no size the book has had; accepted: 0 to " +
                                 std::to_string(book_size));
      }
      view.known_at = static_cast<std::uint64_t>(*size);
    }
  }
  if (query.items().empty()) return std::optional<workshop::Viewpoint>{};
  return std::optional(view);
}

}  // namespace benchwarden::http
