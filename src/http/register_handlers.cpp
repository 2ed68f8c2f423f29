#include <array>
#include <string>
#include <utility>

#include "base/timestamp.h"
#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/views.h"

namespace benchwarden::http {
namespace {

/// The classes whose things have a history of checks, as the path names them.
constexpr std::array<std::pair<std::string_view, std::string_view>, 3> kHistoryClasses = {
    {{"cylinders", "cylinder"}, {"gauges", "gauge"}, {"tools", "tool"}}};

}  // namespace

Response get_things(const ApiPorts& ports, const Request&, const Context& context) {
  return with_book_etag(ports,
                        answer_of(workshop::list_things(ports.workshop, context.part("class"))));
}

Response get_thing(const ApiPorts& ports, const Request&, const Context& context) {
  return answer_of(workshop::show_thing(ports.workshop, context.part("class"), context.part("id")));
}

Response get_levels(const ApiPorts& ports, const Request& request, const Context&) {
  const auto view = read_viewpoint(request.query, ports.workshop.book.head().size);
  if (!view) return view.error();
  Response response = answer_of(workshop::show_levels(ports.workshop, *view));
  return *view ? response : with_book_etag(ports, std::move(response));
}

Response get_history(const ApiPorts& ports, const Request&, const Context& context) {
  for (const auto& [plural, thing_class] : kHistoryClasses) {
    if (context.part("class") == plural) {
      return answer_of(workshop::show_history(ports.workshop, thing_class, context.part("id")));
    }
  }
  return error_answer(
      {base::ErrorCode::kNotFound, "histories are kept of cylinders, gauges and tools"});
}

Response get_checkpoint(const ApiPorts& ports, const Request&, const Context&) {
  return json_answer(200, workshop::show_checkpoint(ports.workshop));
}

}  // namespace benchwarden::http
