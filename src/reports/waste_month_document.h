#pragma once

#include "document/document.h"
#include "reports/report_data.h"
#include "reports/waste_month.h"

namespace benchwarden::reports {

document::Document waste_month_document(const WasteMonthFigures& figures, const ReportData& data);

}  // namespace benchwarden::reports
