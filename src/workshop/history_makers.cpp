#include <utility>

#include "reports/cylinder_history_document.h"
#include "reports/tool_history_document.h"
#include "rules/courses.h"
#include "workshop/judgement.h"
#include "workshop/report_input.h"
#include "workshop/report_makers.h"

namespace benchwarden::workshop {
namespace {

/// The figures every history has, and what more is told of the thing by then.
struct MadeHistory {
  ReportInput input;
  reports::HistoryFigures figures;
};

base::Result<MadeHistory> make_history(const Ports& ports, const ReportRequest& request,
                                       std::string_view check_kind) {
  const findings::Subject& thing = *request.subject;
  auto input = history_input(ports, thing, check_kind);
  if (!input) return input.error();
  input->basis.report_id = request.report_id;
  reports::HistoryFigures figures =
      reports::make_history({input->state, thing.thing_class, thing.id, input->basis,
                             input->entries, input->changes, input->names, input->forms});
  if (!figures.known) {
    return base::Error{base::ErrorCode::kNotFound,
                       "there is no " + thing.thing_class + " '" + thing.id + "' in the register"};
  }
  return MadeHistory{*std::move(input), std::move(figures)};
}

rules::Scene scene_of(const ReportInput& input) {
  return {input.state, input.basis.as_of, input.basis.zone};
}

}  // namespace

base::Result<MadeReport> make_cylinder_history(const Ports& ports, const ReportRequest& request) {
  auto made = make_history(ports, request, "cylinder-check");
  if (!made) return made.error();
  const auto book = rules_in_force(ports, made->input.state);
  if (!book) return book.error();
  const reports::CylinderHistoryFigures figures{
      std::move(made->figures),
      rules::cylinder_course(**book, scene_of(made->input), request.subject->id)};
  return MadeReport{reports::cylinder_history_document(figures, ports.definitions.reports),
                    reports::cylinder_history_json(figures), made->input.basis};
}

base::Result<MadeReport> make_tool_history(const Ports& ports, const ReportRequest& request) {
  auto made = make_history(ports, request, "tool-inspection");
  if (!made) return made.error();
  const reports::ToolHistoryFigures figures{
      std::move(made->figures), rules::gauge_course(scene_of(made->input), *request.subject)};
  return MadeReport{reports::tool_history_document(figures, ports.definitions.reports),
                    reports::tool_history_json(figures), made->input.basis};
}

}  // namespace benchwarden::workshop
