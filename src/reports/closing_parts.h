#pragma once

#include "document/document.h"
#include "reports/frame.h"
#include "reports/report_data.h"

namespace benchwarden::reports {

using Blocks = std::vector<document::Block>;

/// A section of a report under its heading. Those called "signature", "cautions" and "methods" end
/// it: a pack of reports has them once. Its id is the anchor of the heading.
document::Section titled_section(const ReportWording& wording, std::string_view report,
                                 const std::string& id, Blocks blocks);

/// The parts that end every report.
Blocks caution_blocks(const ReportDefinition& definition, const ReportData& data);
/// `own`: what this report says of its figures beyond the others.
Blocks method_blocks_of(const Frame& frame, const ReportWording& wording,
                        const std::vector<std::string>& own);
Blocks signature_blocks(const ReportWording& wording);

}  // namespace benchwarden::reports
