#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/finding_views.h"

namespace benchwarden::http {

Response get_findings(const ApiPorts& ports, const Request& request, const Context&) {
  const auto view = read_viewpoint(request.query, ports.workshop.book.head().size);
  if (!view) return view.error();
  return answer_of(workshop::show_findings(ports.workshop, *view));
}

}  // namespace benchwarden::http
