#pragma once

#include "document/document.h"
#include "reports/findings_list.h"
#include "reports/report_data.h"

namespace benchwarden::reports {

document::Document findings_list_document(const FindingsListFigures& figures,
                                          const ReportData& data);

}  // namespace benchwarden::reports
