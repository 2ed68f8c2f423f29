#include "reports/waste_month_document.h"
#include "workshop/report_input.h"
#include "workshop/report_makers.h"

namespace benchwarden::workshop {

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

}  // namespace benchwarden::workshop
