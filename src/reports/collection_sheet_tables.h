#pragma once

#include "reports/closing_parts.h"
#include "reports/collection_sheet.h"
#include "reports/report_data.h"
#include "reports/texts.h"

namespace benchwarden::reports {

/// What every part of the sheet is made from.
struct SheetParts {
  const CollectionSheetFigures& figures;
  const ReportWording& wording;
  Texts texts;
};

/// Whether anything is recorded as handed over: a plan alone is told as one.
inline bool is_taken(const SheetParts& parts) { return parts.figures.state == SheetState::kTaken; }

Blocks sheet_party_blocks(const SheetParts& parts, const SectionDefinition& section);
Blocks sheet_load_blocks(const SheetParts& parts, const SectionDefinition& section);
Blocks sheet_stage_blocks(const SheetParts& parts, const SectionDefinition& section);

}  // namespace benchwarden::reports
