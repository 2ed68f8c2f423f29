#include <string>
#include <utility>

#include "http/api_answers.h"
#include "http/api_handlers.h"

namespace benchwarden::http {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

JsonObject script_token_json(const access::ScriptToken& token) {
  return {{"id", token.id},
          {"name", token.name},
          {"scope", access::token_scope_name(token.scope)},
          {"made_by", token.made_by},
          {"made_at", base::format_rfc3339_utc(token.made_at)},
          {"ends_at", base::format_rfc3339_utc(token.ends_at)},
          {"last_used_at", time_or_null(token.last_used_at)},
          {"ended_at", time_or_null(token.ended_at)}};
}

}  // namespace

Response get_tokens(const ApiPorts& ports, const Request&, const Context&) {
  const auto tokens = ports.access.tokens();
  if (!tokens) return error_answer(tokens.error());
  JsonArray list;
  for (const access::ScriptToken& token : *tokens) list.emplace_back(script_token_json(token));
  return json_answer(200, JsonObject{{"tokens", std::move(list)}});
}

Response post_token(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto texts = read_text_members(request, {"name", "scope", "last_day"});
  if (!texts) return texts.error();
  const auto scope = access::token_scope_from_name((*texts)[1]);
  if (!scope) {
    return refused_value(
        "/scope", "scope: '" + (*texts)[1] + "' is none; accepted: reads, reads-and-entries");
  }
  const auto end = end_of_day(ports, "/last_day", (*texts)[2]);
  if (!end) return end.error();
  const auto made =
      ports.access.make_token((*texts)[0], *scope, *end, context.who().session.person);
  if (!made && made.error().code == base::ErrorCode::kForbidden) {
    return refused_value("/last_day", made.error().detail);
  }
  if (!made) return refused_member("/name", made.error());
  JsonObject body = script_token_json(made->token);
  body.emplace_back("secret", made->secret);
  return json_answer(201, std::move(body));
}

Response delete_token(const ApiPorts& ports, const Request&, const Context& context) {
  const auto ended = ports.access.end_token(context.part("id"), context.who().session.person);
  if (!ended) return error_answer(ended.error());
  Response response;
  response.status = 204;
  return response;
}

}  // namespace benchwarden::http
