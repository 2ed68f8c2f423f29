#pragma once

#include "document/document.h"
#include "reports/report_data.h"
#include "reports/tool_history.h"

namespace benchwarden::reports {

document::Document tool_history_document(const ToolHistoryFigures& figures, const ReportData& data);

}  // namespace benchwarden::reports
