#include <string>
#include <utility>

#include "base/uuid.h"
#include "http/api_answers.h"
#include "http/api_handlers.h"
#include "http/scoped_entries.h"
#include "workshop/report.h"

namespace benchwarden::http {
namespace {

Response file_answer(workshop::ReportFile file) {
  Response response;
  response.content_type = std::move(file.content_type);
  response.headers.emplace_back("Content-Disposition",
                                "inline; filename=\"" + file.file_name + "\"");
  if (!file.security_policy.empty()) {
    response.headers.emplace_back("Content-Security-Policy", std::move(file.security_policy));
  }
  response.body = std::move(file.bytes);
  return response;
}

base::Result<workshop::ReportRequest, Response> read_request(const workshop::ReportWords& words) {
  auto request = workshop::read_report_request(words);
  if (!request) return error_answer(request.error());
  return *std::move(request);
}

/// False for a word no report knows.
bool take_word(workshop::ReportWords& words, std::string_view name, const std::string& value) {
  if (name == "paper") {
    words.paper = value;
    return true;
  }
  std::optional<std::string>* place = name == "id"        ? &words.id
                                      : name == "month"   ? &words.month
                                      : name == "year"    ? &words.year
                                      : name == "subject" ? &words.subject
                                      : name == "from"    ? &words.from
                                      : name == "to"      ? &words.to
                                                          : nullptr;
  if (place != nullptr) *place = value;
  return place != nullptr;
}

base::Result<workshop::ReportWords, Response> read_words(const std::string& name,
                                                         const Request& request) {
  const auto json = base::parse_json(request.body);
  if (!json) return problem(ProblemType::kMalformed, json.error().detail);
  if (json->object() == nullptr) return problem(ProblemType::kMalformed, "an object is needed");
  workshop::ReportWords words{.name = name};
  for (const auto& [member, value] : *json->object()) {
    if (value.string() == nullptr)
      return refused_value("/" + base::pointer_token(member), member + " must be text");
    if (!take_word(words, member, *value.string())) {
      return refused_value("/" + base::pointer_token(member),
                           "'" + member +
                               "' is not known here; accepted: id, month, year, subject, from, to, "
                               "paper");
    }
  }
  return words;
}

}  // namespace

Response get_report(const ApiPorts& ports, const Request& request, const Context& context,
                    const std::string& format) {
  workshop::ReportWords words{.name = context.part("name"), .format = format};
  for (const auto& [name, value] : request.query.items()) take_word(words, name, value);
  const auto wanted = read_request(words);
  if (!wanted) return wanted.error();
  auto file = workshop::make_report(ports.workshop, *wanted);
  if (!file) return error_answer(file.error());
  return file_answer(*std::move(file));
}

Response post_report(const ApiPorts& ports, const Request& request, const Context& context) {
  const auto words = read_words(context.part("name"), request);
  if (!words) return words.error();
  const auto wanted = read_request(*words);
  if (!wanted) return wanted.error();
  const auto issued = workshop::issue_report(ports.workshop, actor_of(context), *wanted);
  if (!issued) return error_answer(issued.error());
  return json_answer(issued->already_there ? 200 : 201, issued->receipt);
}

namespace {

Response issued_answer(const ApiPorts& ports, const Context& context, workshop::IssuedPart part,
                       const std::string& content_type, const std::string& ending) {
  const auto id = entry_of_path(ports, context);
  if (!id) return id.error();
  auto bytes = workshop::issued_file(ports.workshop, *id, part);
  if (!bytes) return error_answer(bytes.error());
  return file_answer(
      {*std::move(bytes), content_type, "report-" + base::format_uuid(*id) + ending, ""});
}

}  // namespace

Response get_issued_report(const ApiPorts& ports, const Request&, const Context& context) {
  return issued_answer(ports, context, workshop::IssuedPart::kPdf, "application/pdf", ".pdf");
}

Response get_issued_figures(const ApiPorts& ports, const Request&, const Context& context) {
  return issued_answer(ports, context, workshop::IssuedPart::kFigures, "application/json", ".json");
}

}  // namespace benchwarden::http
