#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/calculate.h"

namespace benchwarden::http {
namespace {

using workshop::Calculated;
using workshop::InputTexts;

/// The member `inputs` of the body; nothing else may stand there.
base::Result<InputTexts, Response> read_inputs(const Request& request) {
  const auto json = base::parse_json(request.body);
  if (!json) return problem(ProblemType::kMalformed, json.error().detail);
  const base::Json* inputs = json->find("inputs");
  if (inputs == nullptr || json->object()->size() != 1) {
    return refused_value("/inputs", "an object with the one member 'inputs' is needed");
  }
  auto texts = workshop::input_texts(*inputs);
  if (!texts) return refused_value("/inputs", texts.error().detail);
  return *std::move(texts);
}

}  // namespace

Response get_calculations(const ApiPorts& ports, const Request&, const Context&) {
  return json_answer(200, workshop::list_calculations(ports.workshop.definitions));
}

Response post_calculation(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto inputs = read_inputs(request);
  if (!inputs) return inputs.error();
  const auto outcome = workshop::calculate(
      ports.workshop.definitions, workshop::today(ports.workshop), context.part("name"), *inputs);
  if (const auto* calculated = std::get_if<Calculated>(&outcome)) {
    return json_answer(200, calculated_json(ports.workshop.definitions, *calculated));
  }
  if (const auto* error = std::get_if<base::Error>(&outcome)) return error_answer(*error);
  std::vector<ProblemError> errors;
  for (const workshop::Fault& fault : std::get<workshop::Faults>(outcome)) {
    errors.push_back({fault.pointer, fault.code, fault.sentence});
  }
  return problem(ProblemType::kRefused, "nothing was calculated", errors);
}

}  // namespace benchwarden::http
