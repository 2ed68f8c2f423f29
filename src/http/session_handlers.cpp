#include <string>

#include "access/pin_rules.h"
#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/form_views.h"

namespace benchwarden::http {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

JsonObject session_json(const ApiPorts& ports, const access::Session& session) {
  return {{"person", session.person},
          {"name", ports.workshop.names.display_name(session.person)},
          {"role", access::role_name(session.role)},
          {"expires_at", base::format_rfc3339_utc(session.expires_at)},
          {"confirmed_until", session.is_confirmed
                                  ? Json(base::format_rfc3339_utc(session.confirmed_until))
                                  : Json(nullptr)},
          {"inspection", inspection_json(session.inspection)}};
}

std::string cookie(const Request& request, const std::string& token, std::int64_t seconds) {
  return cookie_header(request, "benchwarden_session", token, seconds);
}

Response sign_in_problem(const access::SignInRefusal& refusal) {
  using Reason = access::SignInRefusal::Reason;
  ProblemType type = ProblemType::kForbidden;
  if (refusal.reason == Reason::kLockedOut) type = ProblemType::kLockedOut;
  if (refusal.reason == Reason::kNoAccess) type = ProblemType::kNoAccessNow;
  if (refusal.reason == Reason::kOneAtATime) type = ProblemType::kOneAtATime;
  if (refusal.reason == Reason::kBusy || refusal.reason == Reason::kFault) {
    type = ProblemType::kUnavailable;
  }
  Response response = problem(type, refusal.detail);
  if (refusal.retry_after_s) {
    response.headers.emplace_back("Retry-After", std::to_string(*refusal.retry_after_s));
  }
  return response;
}

Response session_answer(const ApiPorts& ports, const Request& request, int status,
                        const access::NewSession& made) {
  JsonObject body = session_json(ports, made.session);
  body.emplace_back("token", made.token);
  Response response = json_answer(status, std::move(body));
  constexpr std::int64_t kLongestSessionS = 12LL * 3600;  // the server ends it earlier by its rules
  response.headers.emplace_back("Set-Cookie", cookie(request, made.token, kLongestSessionS));
  return response;
}

/// What is shown at signing in, and the members beside it.
struct Shown {
  TextMembers texts;
  access::Secret secret;
  access::From from;
};

/// The body's `pin` or `passphrase`, and before it the members named. The one place that says where
/// a PIN is enough.
base::Result<Shown, Response> read_shown(const ApiPorts& ports, const Request& request,
                                         const Context& context, std::vector<std::string> names) {
  const auto json = base::parse_json(request.body);
  const bool is_passphrase = json && json->find("passphrase") != nullptr;
  names.emplace_back(is_passphrase ? "passphrase" : "pin");
  auto texts = read_text_members(request, names);
  if (!texts) return texts.error();
  Shown shown;
  shown.from = from_of(ports, request, context);
  shown.secret.kind =
      is_passphrase ? access::Secret::Kind::kPassphrase : access::Secret::Kind::kPin;
  if (!is_passphrase && shown.from.place == access::Place::kElsewhere) {
    ports.note_refused("pin-from-elsewhere", request.peer, "");
    return problem(ProblemType::kPassphraseNeeded,
                   "A PIN is enough on paired devices and on the machine itself only; from here it "
                   "takes a passphrase.");
  }
  shown.secret.text = texts->back();
  shown.texts = *std::move(texts);
  return shown;
}

}  // namespace

Authenticate authenticator(access::Access& access) {
  return [&access](const Request& request) -> std::optional<SignedIn> {
    if (!request.credential) return std::nullopt;
    const Credential& shown = *request.credential;
    // Only where no browser sends it by itself.
    const bool is_script = shown.from == Credential::From::kBearer &&
                           shown.token.starts_with(access::kScriptTokenStart);
    auto session = is_script ? access.script_session(shown.token) : access.session(shown.token);
    if (!session) return std::nullopt;
    return SignedIn{*std::move(session), request.credential->token};
  };
}

Response get_people(const ApiPorts& ports, const Request&, const Context&) {
  const auto people = ports.access.people();
  if (!people) return error_answer(people.error());
  JsonArray list;
  for (const access::Person& person : *people) {
    if (!person.active) continue;
    // Whoever reaches the address may ask: what stands there is what is shown anywhere.
    const std::string name = ports.workshop.names.display_name(person.id);
    list.emplace_back(
        JsonObject{{"id", person.id}, {"name", name}, {"role", access::role_name(person.role)}});
  }
  return json_answer(200, JsonObject{{"people", std::move(list)},
                                     {"setup_needed", people->empty()},
                                     {"shown_in", workshop::shown_in(ports.workshop)}});
}

Response post_setup(const ApiPorts& ports, const Request& request, const Context&) {
  const auto texts = read_text_members(request, {"code", "name", "pin"});
  if (!texts) return texts.error();
  // Said here as well, so that the page can show it beside the field.
  if (const auto pin = access::check_pin((*texts)[2]); !pin) {
    return refused_value("/pin", pin.error().detail);
  }
  if (auto refusal = code_try_refusal(ports, request)) return *std::move(refusal);
  const auto person = ports.access.first_manager((*texts)[0], (*texts)[1], (*texts)[2]);
  if (!person) note_wrong_code(ports, request, person.error());
  if (!person && person.error().code == base::ErrorCode::kConflict) {
    return problem(ProblemType::kAlreadySetUp, person.error().detail);
  }
  if (!person) return error_answer(person.error());
  return json_answer(201, person_json(*person));
}

Response get_session(const ApiPorts& ports, const Request&, const Context& context) {
  const access::Session& session = context.who().session;
  const auto has = ports.access.has_passphrase(session.person);
  if (!has) return error_answer(has.error());
  JsonObject body = session_json(ports, session);
  body.emplace_back("has_passphrase", *has);
  return json_answer(200, std::move(body));
}

Response post_session(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto shown = read_shown(ports, request, context, {"person"});
  if (!shown) return shown.error();
  const auto made = ports.access.sign_in(shown->texts.front(), shown->secret, shown->from);
  return made ? session_answer(ports, request, 201, *made) : sign_in_problem(made.error());
}

Response post_confirmation(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto shown = read_shown(ports, request, context, {});
  if (!shown) return shown.error();
  const auto made = ports.access.confirm(context.who().token, shown->secret, shown->from);
  return made ? session_answer(ports, request, 200, *made) : sign_in_problem(made.error());
}

Response put_passphrase(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto texts = read_text_members(request, {"passphrase"});
  if (!texts) return texts.error();
  const SignedIn& who = context.who();
  const auto set = ports.access.set_passphrase(who.session.person, texts->front(), who.token,
                                               who.session.person);
  if (!set) return refused_member("/passphrase", set.error());
  Response response;
  response.status = 204;
  return response;
}

Response delete_session(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto done = ports.access.sign_out(context.who().token);
  if (!done) return error_answer(done.error());
  Response response;
  response.status = 204;
  response.headers.emplace_back("Set-Cookie", cookie(request, "", 0));
  return response;
}

}  // namespace benchwarden::http
