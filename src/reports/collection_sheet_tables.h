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

Blocks sheet_party_blocks(const SheetParts& parts, const SectionDefinition& section);
Blocks sheet_load_blocks(const SheetParts& parts, const SectionDefinition& section);
Blocks sheet_stage_blocks(const SheetParts& parts, const SectionDefinition& section);

}  // namespace benchwarden::reports
