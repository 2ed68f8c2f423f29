#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "document/blocks.h"
#include "reports/table_lines.h"
#include "reports/texts.h"
#include "reports/waste_month.h"

// What every report about waste says in the same way.

namespace benchwarden::reports {

/// The List of Waste code with the asterisk the List gives to hazardous waste.
std::string code_text(const tallies::StreamFacts& stream);
/// "Used damper oil (13 01 10*)".
std::string stream_text(const ReportWording& wording, const tallies::StreamFacts& stream);
/// Where the rows of a stream begin.
std::string stream_anchor(const std::string& stream);
/// In litres or kilograms, as in the tables.
std::string amount_text(const ReportWording& wording, tallies::CountedBy counted_by,
                        std::int64_t millionths);
/// By which density the mass of a stream counted by volume was computed, and its source.
std::string density_text(const ReportWording& wording, const StreamFigures& stream);

document::KeyFigure mass_figure(const std::string& label, const std::string& name,
                                const std::optional<std::int64_t>& mass,
                                const ReportWording& wording);
/// What arose of hazardous and of other waste, what was collected and what stands: four figures in
/// this order, without links. A sum is told where both its terms are.
document::KeyFigures waste_key_figures(const MassTotals& hazardous, const MassTotals& other,
                                       const ReportWording& wording);

/// The volume of a stream that is counted by it; else a dash.
CellValue litres_cell(const tallies::StreamFacts& stream, std::int64_t amount,
                      const ReportWording& wording);
/// The row of masses of all hazardous or all other streams.
TableLine mass_total_line(const std::string& title, const std::string& name,
                          const MassTotals& totals, const ReportWording& wording);

/// What arose in a month, as a bar: its figure as tables print it, below 0 drawn as 0.
document::Bar arisen_bar(base::CivilMonth month, std::int64_t amount);

/// One load that was collected.
TableLine collected_line(const Texts& texts, const CollectedFigures& collected);
/// Documents of before that are not back: a box where there is something to do, one line where
/// there is not.
document::Block open_documents_block(const ReportWording& wording, const std::string& title,
                                     const std::vector<OpenDocument>& open);

}  // namespace benchwarden::reports
