#include <string>
#include <utility>

#include "http/api_answers.h"
#include "http/api_handlers.h"

namespace benchwarden::http {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

Json device_or_null(const access::ListedSession& listed) {
  if (!listed.device) return nullptr;
  return JsonObject{{"id", *listed.device}, {"name", listed.device_name.value_or("")}};
}

JsonObject listed_session_json(const access::ListedSession& listed, const SignedIn& who) {
  return {{"id", listed.id},
          {"person", listed.person},
          {"place", access::place_name(listed.place)},
          {"device", device_or_null(listed)},
          {"began_at", base::format_rfc3339_utc(listed.began_at)},
          {"last_seen_at", base::format_rfc3339_utc(listed.last_seen_at)},
          {"is_this", listed.id == who.session.id}};
}

/// Whether the one who asks may know of that session.
bool may_see(const access::Session& who, const access::ListedSession& listed) {
  return who.role == access::Role::kManager || listed.person == who.person;
}

}  // namespace

Response get_sessions(const ApiPorts& ports, const Request&, const Context& context) {
  const auto sessions = ports.access.sessions();
  if (!sessions) return error_answer(sessions.error());
  JsonArray list;
  for (const access::ListedSession& listed : *sessions) {
    if (!may_see(context.who().session, listed)) continue;
    list.emplace_back(listed_session_json(listed, context.who()));
  }
  return json_answer(200, JsonObject{{"sessions", std::move(list)}});
}

Response delete_listed_session(const ApiPorts& ports, const Request&, const Context& context) {
  const access::Session& who = context.who().session;
  const auto listed = ports.access.listed_session(context.part("id"));
  if (!listed) return error_answer(listed.error());
  // Whose it is stays unknown to others: the answer is that of a session that is none.
  if (!may_see(who, *listed)) {
    return error_answer({base::ErrorCode::kNotFound, "no session has that id"});
  }
  if (listed->person != who.person && !who.is_confirmed) return confirmation_needed();
  const auto ended = ports.access.end_session(listed->id, who.person);
  if (!ended) return error_answer(ended.error());
  Response response;
  response.status = 204;
  return response;
}

}  // namespace benchwarden::http
