#include <string>
#include <utility>

#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/due.h"
#include "workshop/due_calendar.h"

namespace benchwarden::http {
namespace {

using base::JsonObject;

/// Lets a caller that holds these very bytes go without them.
Response with_own_etag(Response response) {
  if (response.status == 200) {
    response.headers.emplace_back("ETag", etag_of(body_bytes(response)));
  }
  return response;
}

}  // namespace

Response get_due(const ApiPorts& ports, const Request&, const Context&) {
  return with_own_etag(answer_of(workshop::show_due(ports.workshop)));
}

Response get_calendar_feed(const ApiPorts& ports, const Request&, const Context& context) {
  const auto made_at = ports.access.calendar_feed_made_at(context.who().session.person);
  if (!made_at) return error_answer(made_at.error());
  return json_answer(200, JsonObject{{"made_at", time_or_null(*made_at)}});
}

Response post_calendar_feed(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto nothing = read_text_members(request, {});
  if (!nothing) return nothing.error();
  const auto made = ports.access.make_calendar_feed(context.who().session.person);
  if (!made) return error_answer(made.error());
  return json_answer(201, JsonObject{{"path", "/api/v1/calendar/" + made->secret + ".ics"},
                                     {"made_at", base::format_rfc3339_utc(made->made_at)}});
}

Response delete_calendar_feed(const ApiPorts& ports, const Request&, const Context& context) {
  const auto ended = ports.access.end_calendar_feed(context.who().session.person);
  if (!ended) return error_answer(ended.error());
  Response response;
  response.status = 204;
  return response;
}

Response get_calendar(const ApiPorts& ports, const Request&, const Context& context) {
  const auto known = ports.access.check_calendar_secret(context.part("secret"));
  if (!known) return error_answer(known.error());
  auto bytes = workshop::due_calendar(ports.workshop);
  if (!bytes) return error_answer(bytes.error());
  Response response;
  response.content_type = "text/calendar; charset=utf-8";
  response.headers.emplace_back("Cache-Control", "private, no-cache");
  response.headers.emplace_back("Content-Disposition", "attachment; filename=\"due.ics\"");
  response.body = *std::move(bytes);
  return with_own_etag(std::move(response));
}

}  // namespace benchwarden::http
