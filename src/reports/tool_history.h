#pragma once

#include "findings/gauge_course.h"
#include "reports/history.h"

namespace benchwarden::reports {

/// Of a tool or a gauge.
struct ToolHistoryFigures {
  HistoryFigures history;
  findings::GaugeCourse course;  ///< as far as it stands
};

base::Json tool_history_json(const ToolHistoryFigures& figures);

}  // namespace benchwarden::reports
