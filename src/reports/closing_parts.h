#pragma once

#include "document/document.h"
#include "reports/report_data.h"

namespace benchwarden::reports {

using Blocks = std::vector<document::Block>;

/// A section under its heading.
document::Section titled_section(const std::string& heading, Blocks blocks);

/// The parts that end every report.
Blocks caution_blocks(const ReportDefinition& definition, const ReportData& data);
Blocks signature_blocks(const ReportWording& wording);

}  // namespace benchwarden::reports
