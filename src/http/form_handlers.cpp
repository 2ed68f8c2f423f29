#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/form_views.h"

namespace benchwarden::http {

Response get_health(const ApiPorts& ports, const Request&, const Context&) {
  return json_answer(200, base::JsonObject{{"status", "ready"},
                                           {"version", ports.version},
                                           {"book_size", ports.workshop.book.head().size}});
}

Response get_diagnostics(const ApiPorts& ports, const Request&, const Context&) {
  return json_answer(200, ports.diagnostics());
}

Response get_backups(const ApiPorts& ports, const Request&, const Context&) {
  return json_answer(200, workshop::show_backups(ports.workshop, ports.backups()));
}

Response get_openapi(const ApiPorts& ports, const Request&, const Context&) {
  return json_answer(200, workshop::openapi(ports.workshop));
}

Response get_emergency(const ApiPorts& ports, const Request&, const Context&) {
  return json_answer(200, workshop::show_emergency(ports.workshop));
}

Response get_forms(const ApiPorts& ports, const Request&, const Context&) {
  return json_answer(200, workshop::list_forms(ports.workshop));
}

Response get_form(const ApiPorts& ports, const Request&, const Context& context) {
  return answer_of(workshop::show_form(ports.workshop, context.part("kind")));
}

}  // namespace benchwarden::http
