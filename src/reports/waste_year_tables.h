#pragma once

#include "reports/closing_parts.h"
#include "reports/report_data.h"
#include "reports/texts.h"
#include "reports/waste_year.h"

namespace benchwarden::reports {

/// What every part of the report is made from.
struct YearParts {
  const WasteYearFigures& figures;
  const ReportWording& wording;
  Texts texts;
};

// One function for each part that holds tables.
Blocks year_stream_blocks(const YearParts& parts, const SectionDefinition& section);
Blocks year_balance_blocks(const YearParts& parts, const SectionDefinition& section);
Blocks year_month_blocks(const YearParts& parts, const SectionDefinition& section);
Blocks year_consignment_blocks(const YearParts& parts, const SectionDefinition& section);
Blocks year_carrier_blocks(const YearParts& parts, const SectionDefinition& section);
Blocks year_return_blocks(const YearParts& parts, const SectionDefinition& section);
/// Empty where no pack tells of categories.
Blocks year_generator_blocks(const YearParts& parts, const SectionDefinition& section);
Blocks year_closing_blocks(const YearParts& parts, const SectionDefinition& section);

}  // namespace benchwarden::reports
