#include <utility>

#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "workshop/finding_views.h"
#include "workshop/pack_views.h"
#include "workshop/retention.h"
#include "workshop/rule_adoption.h"

namespace benchwarden::http {
namespace {

Response faults_answer(const base::FileFaults& faults) {
  std::vector<ProblemError> errors;
  for (const base::FileFault& fault : faults) {
    const std::string line = fault.line > 0 ? "line " + std::to_string(fault.line) + ": " : "";
    errors.push_back({"/toml", "bad_pack", line + fault.reason});
  }
  return problem(ProblemType::kRefused, "the pack was not put in force", errors);
}

}  // namespace

Response get_rules(const ApiPorts& ports, const Request&, const Context&) {
  const std::string tag = book_tag(ports);
  return tagged(answer_of(workshop::show_rules(ports.workshop)), tag);
}

Response get_rule_packs(const ApiPorts& ports, const Request&, const Context&) {
  const std::string tag = book_tag(ports);
  return tagged(answer_of(workshop::show_packs(ports.workshop)), tag);
}

Response post_rule_check(const ApiPorts& ports, const Request& request, const Context&) {
  const auto members = read_text_members(request, {"toml"});
  if (!members) return members.error();
  return json_answer(200, workshop::show_checked_pack(ports.workshop, members->front()));
}

Response put_local_pack(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto members = read_text_members(request, {"toml"});
  if (!members) return members.error();
  const auto outcome =
      workshop::put_local_pack(ports.workshop, actor_of(context), members->front());
  if (const auto* error = std::get_if<base::Error>(&outcome)) return error_answer(*error);
  if (const auto* faults = std::get_if<base::FileFaults>(&outcome)) return faults_answer(*faults);
  auto local = workshop::show_local_pack(ports.workshop);
  if (!local) return error_answer(local.error());
  return json_answer(200, base::JsonObject{{"seq", std::get<book::Receipt>(outcome).seq},
                                           {"local", *std::move(local)}});
}

Response get_retention(const ApiPorts& ports, const Request& request, const Context&) {
  const auto view = read_viewpoint(request.query, ports.workshop.book.head().size);
  if (!view) return view.error();
  return answer_of(workshop::show_retention(ports.workshop, *view));
}

}  // namespace benchwarden::http
