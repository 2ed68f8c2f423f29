#pragma once

#include "document/chart.h"
#include "reports/cylinder_history.h"
#include "reports/history_document.h"

namespace benchwarden::reports {

/// What the cylinder held at each check, in kg, with its fillings; losses beyond uncertainty are
/// marked.
document::Chart content_chart(const CylinderHistoryFigures& figures, const HistoryParts& parts);

/// What left the cylinder since it was filled, and what of it was logged as used, both in kg and
/// summed up from check to check: a leak is the gap that opens between them. Where what left
/// between two checks cannot be told, the lines are broken and go on from the same sums.
document::Chart flow_chart(const CylinderHistoryFigures& figures, const HistoryParts& parts);

}  // namespace benchwarden::reports
