#pragma once

#include "reports/history_document.h"
#include "reports/tool_history.h"

namespace benchwarden::reports {

/// When the errors meet the limit of the class, or why that is not told; the errors at one pressure
/// over time as a chart; every point as a table.
Blocks gauge_course_blocks(const ToolHistoryFigures& figures, const HistoryParts& parts,
                           const SectionDefinition& section);

}  // namespace benchwarden::reports
