#include <map>
#include <vector>

#include "reports/collection_sheet_document.h"
#include "reports/waste_month_document.h"
#include "reports/waste_year_document.h"
#include "rules/generator_months.h"
#include "workshop/judgement.h"
#include "workshop/month_close.h"
#include "workshop/report_input.h"
#include "workshop/report_makers.h"

namespace benchwarden::workshop {
namespace {

std::map<int, reports::MonthSigned> closings_of(const tallies::State& state, int year) {
  std::map<int, reports::MonthSigned> closings;
  for (int number = 1; number <= reports::kMonthsOfYear; ++number) {
    const base::CivilMonth month{year, number};
    const auto closing = closing_in(state, month);
    if (!closing) continue;
    const bool holds =
        closing->digest.empty() || closing->digest == reports::month_digest(sums_of(state, month));
    closings.emplace(number, reports::MonthSigned{closing->seq, holds});
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

}  // namespace

base::Result<MadeReport> make_waste_month(const Ports& ports, const ReportRequest& request) {
  auto input = waste_month_input(ports, *request.month);
  if (!input) return input.error();
  input->basis.report_id = request.report_id;
  const reports::WasteMonthFigures figures =
      reports::make_waste_month({input->state, *request.month, input->basis, input->entries,
                                 input->names, input->forms, input->closing});
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
  const rules::Scene scene(input->state, input->basis.as_of, input->basis.zone);
  const reports::WasteYearFigures figures =
      reports::make_waste_year({input->state, year, input->basis, input->entries, input->names,
                                input->forms, closings_of(input->state, year),
                                returns_in_force(ports.definitions.reports.returns, input->basis),
                                rules::generator_months(**book, scene, year)});
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
