#pragma once

#include "reports/cylinder_history.h"
#include "reports/history_document.h"

namespace benchwarden::reports {

/// The content over time as a chart, and the figures of every entry as a table.
Blocks cylinder_course_blocks(const CylinderHistoryFigures& figures, const HistoryParts& parts,
                              const SectionDefinition& section);

}  // namespace benchwarden::reports
