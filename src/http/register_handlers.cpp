#include <array>
#include <string>
#include <utility>

#include "base/timestamp.h"
#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/views.h"

namespace benchwarden::http {
namespace {

/// The classes whose things have a history of checks.
constexpr std::array<std::string_view, 3> kHistoryClasses{"cylinder", "gauge", "tool"};

}  // namespace

Response get_things(const ApiPorts& ports, const Request& request, const Context& context) {
  const std::string tag = book_tag(ports);
  const auto view = read_viewpoint(request.query, ports.workshop.book.head().size);
  if (!view) return view.error();
  Response response =
      answer_of(workshop::list_things(ports.workshop, context.part("class"), *view));
  return *view ? response : tagged(std::move(response), tag);
}

Response get_thing(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto view = read_viewpoint(request.query, ports.workshop.book.head().size);
  if (!view) return view.error();
  return answer_of(
      workshop::show_thing(ports.workshop, context.part("class"), context.part("id"), *view));
}

Response get_levels(const ApiPorts& ports, const Request& request, const Context&) {
  const std::string tag = book_tag(ports);
  const auto view = read_viewpoint(request.query, ports.workshop.book.head().size);
  if (!view) return view.error();
  Response response = answer_of(workshop::show_levels(ports.workshop, *view));
  return *view ? response : tagged(std::move(response), tag);
}

Response get_history(const ApiPorts& ports, const Request&, const Context& context) {
  for (const std::string_view thing_class : kHistoryClasses) {
    if (context.part("class") == thing_class) {
      return answer_of(workshop::show_history(ports.workshop, thing_class, context.part("id")));
    }
  }
  return error_answer(
      {base::ErrorCode::kNotFound, "histories are kept of cylinders, gauges and tools"});
}

}  // namespace benchwarden::http
