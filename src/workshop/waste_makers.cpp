#include <algorithm>
#include <map>
#include <vector>

#include "reports/collection_sheet_document.h"
#include "reports/waste_month_document.h"
#include "reports/waste_year_document.h"
#include "rules/filling.h"
#include "rules/generator_months.h"
#include "tallies/levels.h"
#include "workshop/collections.h"
#include "workshop/judgement.h"
#include "workshop/month_close.h"
#include "workshop/report_input.h"
#include "workshop/report_makers.h"

namespace benchwarden::workshop {
namespace {

base::Result<std::map<int, reports::MonthSigned>> closings_of(const Ports& ports,
                                                              const tallies::State& state,
                                                              int year) {
  std::map<int, reports::MonthSigned> closings;
  for (int number = 1; number <= reports::kMonthsOfYear; ++number) {
    const base::CivilMonth month{year, number};
    const auto closing = closing_in(state, month);
    if (!closing) continue;
    const auto holds = holds_as_signed(ports, state, month, *closing);
    if (!holds) return holds.error();
    closings.emplace(number, reports::MonthSigned{closing->seq, *holds});
  }
  return closings;
}

std::vector<reports::ReturnsStated> returns_in_force(const reports::Returns& returns,
                                                     const reports::Basis& basis) {
  std::vector<reports::ReturnsStated> stated;
  for (const reports::PackStated& pack : basis.packs) {
    const auto* found = returns.find(pack.id);
    if (found != nullptr) stated.push_back({pack.id, pack.title, found->returns});
  }
  return stated;
}

/// The first collection that is planned and still to come.
base::Result<std::optional<reports::Outlook::Planned>> next_planned(const Ports& ports,
                                                                    const tallies::State& state) {
  std::optional<reports::Outlook::Planned> next;
  for (const auto& [id, stages] : state.collections()) {
    if (tallies::open_plan(stages) == nullptr) continue;
    const auto planned = planned_for(ports, stages, state.size());
    if (!planned) return planned.error();
    if (!*planned || (next && next->day <= (*planned)->day)) continue;
    next = reports::Outlook::Planned{id, (*planned)->day, (*planned)->entry};
  }
  return next;
}

base::Result<reports::Outlook> outlook_of(const Ports& ports, const ReportInput& input) {
  reports::Outlook outlook;
  const auto planned = next_planned(ports, input.state);
  if (!planned) return planned.error();
  outlook.planned = *planned;
  const auto said = judge(ports, input.state, input.basis.as_of);
  if (!said) return said.error();
  for (const findings::Finding& one : said->findings) {
    outlook.over += one.severity == findings::Severity::kOver ? 1 : 0;
    outlook.due += one.severity == findings::Severity::kDue ? 1 : 0;
  }
  return outlook;
}

/// As they were to be seen at the end of the month, or as of now where it is not over.
std::map<std::string, reports::FillingFigures> fillings_of(const ReportInput& input,
                                                           base::CivilMonth month) {
  const base::Instant end = input.basis.zone.start_of(base::next_month(month));
  const base::Instant now{std::min(input.basis.as_of.ms, end.ms - 1)};
  const rules::Scene scene(input.state, now, input.basis.zone);
  std::map<std::string, reports::FillingFigures> fillings;
  for (const tallies::Level& level : tallies::levels(input.state, base::Instant{now.ms + 1})) {
    const rules::Filling filling = rules::filling_of(scene, level);
    if (filling.none != rules::NoForecast::kNone) continue;
    fillings.emplace(level.container, reports::FillingFigures{filling.earliest_80, filling.median,
                                                              filling.latest_80});
  }
  return fillings;
}

}  // namespace

base::Result<MadeReport> make_waste_month(const Ports& ports, const ReportRequest& request) {
  auto input = waste_month_input(ports, *request.month);
  if (!input) return input.error();
  input->basis.report_id = request.report_id;
  const auto outlook = outlook_of(ports, *input);
  if (!outlook) return outlook.error();
  const reports::WasteMonthFigures figures = reports::make_waste_month(
      {input->state, *request.month, input->basis, input->entries, input->names, input->forms,
       input->closing, *outlook, fillings_of(*input, *request.month)});
  return MadeReport{reports::waste_month_document(figures, ports.definitions.reports),
                    reports::waste_month_json(figures), input->basis};
}

base::Result<MadeReport> make_waste_year(const Ports& ports, const ReportRequest& request) {
  const int year = *request.year;
  auto input = waste_year_input(ports, year);
  if (!input) return input.error();
  input->basis.report_id = request.report_id;
  const auto book = rules_in_force(ports, input->state);
  if (!book) return book.error();
  const auto closings = closings_of(ports, input->state, year);
  if (!closings) return closings.error();
  const rules::Scene scene(input->state, input->basis.as_of, input->basis.zone);
  const reports::WasteYearFigures figures = reports::make_waste_year(
      {input->state, year, input->basis, input->entries, input->names, input->forms, *closings,
       returns_in_force(ports.definitions.reports.returns, input->basis),
       rules::generator_months(**book, scene, year), begins_in(ports, input->state)});
  return MadeReport{reports::waste_year_document(figures, ports.definitions.reports),
                    reports::waste_year_json(figures), input->basis};
}

base::Result<MadeReport> make_collection_sheet(const Ports& ports, const ReportRequest& request) {
  const findings::Subject& collection = *request.subject;
  auto input = collection_input(ports, collection);
  if (!input) return input.error();
  input->basis.report_id = request.report_id;
  const reports::CollectionSheetFigures figures = reports::make_collection_sheet(
      {input->state, collection.id, input->basis, input->entries, input->names, input->forms});
  if (!figures.known) {
    return base::Error{base::ErrorCode::kNotFound,
                       "nothing stands about a collection '" + collection.id + "'"};
  }
  return MadeReport{reports::collection_sheet_document(figures, ports.definitions.reports),
                    reports::collection_sheet_json(figures), input->basis};
}

}  // namespace benchwarden::workshop
