#pragma once

#include "document/document.h"
#include "reports/cylinder_history.h"
#include "reports/report_data.h"

namespace benchwarden::reports {

document::Document cylinder_history_document(const CylinderHistoryFigures& figures,
                                             const ReportData& data);

}  // namespace benchwarden::reports
