#pragma once

#include "document/blocks.h"
#include "reports/report_data.h"

namespace benchwarden::reports {

using Blocks = std::vector<document::Block>;

/// The parts that end every report.
Blocks caution_blocks(const ReportDefinition& definition, const ReportData& data);
Blocks signature_blocks(const ReportWording& wording);

}  // namespace benchwarden::reports
