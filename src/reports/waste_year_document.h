#pragma once

#include "document/document.h"
#include "reports/report_data.h"
#include "reports/waste_year.h"

namespace benchwarden::reports {

document::Document waste_year_document(const WasteYearFigures& figures, const ReportData& data);

}  // namespace benchwarden::reports
