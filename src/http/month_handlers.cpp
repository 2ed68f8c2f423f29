#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/month_views.h"

namespace benchwarden::http {

Response get_months(const ApiPorts& ports, const Request&, const Context&) {
  return answer_of(workshop::show_months(ports.workshop));
}

Response get_month(const ApiPorts& ports, const Request&, const Context& context) {
  const auto month = base::parse_month(context.part("month"));
  if (!month) return error_answer({base::ErrorCode::kNotFound, month.error().detail});
  return answer_of(workshop::show_month(ports.workshop, *month));
}

}  // namespace benchwarden::http
