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
