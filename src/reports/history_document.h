#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "reports/closing_parts.h"
#include "reports/history.h"
#include "reports/report_data.h"
#include "reports/table_lines.h"
#include "reports/texts.h"

// The parts that every history of one thing has.

namespace benchwarden::reports {

struct HistoryParts {
  const HistoryFigures& figures;
  const ReportWording& wording;
  Texts texts;
  std::string_view check_kind;                   ///< kind of the entries that are its checks
  std::vector<std::string_view> told_elsewhere;  ///< fields of them not printed below a check
};

/// A register entry, whatever it is about: when, what was done to what, by whom, what was said.
TableLine register_change_line(const Texts& texts, const HistoryLine& change,
                               const SectionDefinition& section);

Blocks register_blocks(const HistoryParts& parts, const SectionDefinition& section);
Blocks check_blocks(const HistoryParts& parts, const SectionDefinition& section);
Blocks change_blocks(const HistoryParts& parts, const SectionDefinition& section);
/// `own`: what this history says beyond the others.
Blocks history_method_blocks(const HistoryParts& parts, const std::vector<std::string>& own);

/// Title, subject and furniture, no sections yet. `period` goes into the corner of every page.
document::Document history_document(const HistoryParts& parts, const ReportDefinition& definition,
                                    const std::string& period);

/// "cylinder-check/result": where the words of a field stand.
std::string path_of(std::string_view kind, std::string_view field);
/// Local time for the axis of a chart.
std::int64_t chart_time(base::Timestamp local);

}  // namespace benchwarden::reports
