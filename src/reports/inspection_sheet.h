#pragma once

#include <optional>
#include <vector>

#include "document/document.h"
#include "reports/history.h"
#include "reports/report_data.h"
#include "reports/sheet_parts.h"

namespace benchwarden::reports {

/// A pressure at which the gauge was compared the last time, in bar.
struct PointAsked {
  double reference = 0;
  std::optional<double> limit;  ///< of its class there; none without class or range
};

struct InspectionSheetFigures {
  HistoryFigures history;  ///< with the last inspections that stand
  FormAsked form;
  std::vector<PointAsked> points;  ///< in the order they are to be compared at
};

/// What is asked rising and falling, where it was compared rising alone.
std::vector<PointAsked> up_and_down(std::vector<PointAsked> points);

/// Leaves the last inspections that stand.
void keep_last_checks(HistoryFigures& history, std::size_t count);

base::Json inspection_sheet_json(const InspectionSheetFigures& figures);
document::Document inspection_sheet_document(const InspectionSheetFigures& figures,
                                             const ReportData& data);

}  // namespace benchwarden::reports
