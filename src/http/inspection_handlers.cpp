#include <string>
#include <utility>

#include "http/api_answers.h"
#include "http/api_handlers.h"

namespace benchwarden::http {

base::Json inspection_json(const std::optional<access::Inspection>& inspection) {
  if (!inspection) return nullptr;
  return base::JsonObject{{"id", inspection->id},
                          {"scope", access::inspection_scope_name(inspection->scope)},
                          {"from", base::format_rfc3339_utc(inspection->from)},
                          {"until", base::format_rfc3339_utc(inspection->until)}};
}

Response put_inspection(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto texts = read_text_members(request, {"first_day", "last_day", "scope"});
  if (!texts) return texts.error();
  access::Inspection wanted;
  const auto from = start_of_day(ports, "/first_day", (*texts)[0]);
  if (!from) return from.error();
  wanted.from = *from;
  const auto until = end_of_day(ports, "/last_day", (*texts)[1]);
  if (!until) return until.error();
  wanted.until = *until;
  const auto scope = access::inspection_scope_from_name((*texts)[2]);
  if (!scope) {
    return refused_value("/scope", "scope: '" + (*texts)[2] +
                                       "' is none; accepted: everything, waste, "
                                       "cylinders-and-tools");
  }
  wanted.scope = *scope;
  const auto given =
      ports.access.give_inspection(context.part("id"), wanted, context.who().session.person);
  if (!given && given.error().code == base::ErrorCode::kForbidden) {
    return refused_value("/last_day", given.error().detail);
  }
  if (!given) return refused_member("/id", given.error());
  return json_answer(200, inspection_json(*given));
}

Response delete_inspection(const ApiPorts& ports, const Request&, const Context& context) {
  const auto ended = ports.access.end_inspection(context.part("id"), context.who().session.person);
  if (!ended) return error_answer(ended.error());
  Response response;
  response.status = 204;
  return response;
}

}  // namespace benchwarden::http
