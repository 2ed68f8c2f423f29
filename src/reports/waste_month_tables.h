#pragma once

#include "reports/closing_parts.h"
#include "reports/report_data.h"
#include "reports/texts.h"
#include "reports/waste_month.h"

namespace benchwarden::reports {

/// What every part of the report is made from.
struct MonthParts {
  const WasteMonthFigures& figures;
  const ReportWording& wording;
  Texts texts;
};

// One function for each part that holds tables.
Blocks stream_blocks(const MonthParts& parts, const SectionDefinition& section);
Blocks level_blocks(const MonthParts& parts, const SectionDefinition& section);
Blocks collection_blocks(const MonthParts& parts, const SectionDefinition& section);
Blocks balance_blocks(const MonthParts& parts, const SectionDefinition& section);
Blocks difference_blocks(const MonthParts& parts, const SectionDefinition& section);
Blocks closing_blocks(const MonthParts& parts);
Blocks entry_blocks(const MonthParts& parts, const SectionDefinition& section);
Blocks figure_blocks(const MonthParts& parts, const ReportData& data);
Blocks chart_blocks(const MonthParts& parts);

// Where links lead.
std::string balance_anchor(const std::string& container);
std::string entries_anchor(const std::string& container);
std::string entry_anchor(std::uint64_t seq);
/// To the entries of a container; "" where it has none in the month.
std::string entries_link(const MonthParts& parts, const std::string& container);

/// "w1, Oil drum (sealed)".
std::string container_text(const MonthParts& parts, const ContainerFigures& container);
/// What a line about a late entry is filled with.
ReportWording::Values late_values(const MonthParts& parts, const EntryFigures& entry);
/// "Entry 12, oil drained on …: volume 63 mL, was 62 mL".
std::string corrected_line(const MonthParts& parts, const CorrectionFigures& correction);

}  // namespace benchwarden::reports
