#pragma once

#include <string>
#include <vector>

#include "document/document.h"
#include "findings/finding.h"
#include "reports/history.h"
#include "reports/report_data.h"
#include "reports/sheet_parts.h"

namespace benchwarden::reports {

/// The last briefing of a person about the caution, as it stands.
struct BriefedFigures {
  std::string person;
  std::string name;
  std::uint64_t entry = 0;
  base::Timestamp briefed_at;
  base::CivilDate valid_until;
};

struct BriefingSheetFigures {
  Frame frame;
  std::string caution;                     ///< its id
  std::vector<findings::Authority> rules;  ///< that say how long a briefing holds
  std::vector<BriefedFigures> briefed;     ///< by name
};

base::Json briefing_sheet_json(const BriefingSheetFigures& figures, const ReportData& data);
document::Document briefing_sheet_document(const BriefingSheetFigures& figures,
                                           const ReportData& data);

}  // namespace benchwarden::reports
