#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/json.h"
#include "findings/finding.h"
#include "reports/corrections.h"
#include "reports/frame.h"

namespace benchwarden::reports {

/// Somebody saw a finding and said why it stands for now.
struct AcknowledgementFigures {
  EntryFigures entry;
  std::optional<base::CivilDate> until;
  std::string reason;
};

/// A finding with the words the workshop has for it.
struct FindingFigures {
  findings::Finding finding;
  std::string subject;   ///< "container/w1"
  std::string sentence;  ///< whole in itself
  std::string measured;  ///< "" where its sentence says all there is
  std::string limit;
  std::optional<AcknowledgementFigures> acknowledged;
  std::uint64_t closed_by = 0;  ///< the entry of an action about it; 0: none
};

/// Something to be done on a day.
struct DueFigures {
  base::CivilDate day;
  std::string rule;
  std::string subject;
  std::string part;
  std::string sentence;
  std::string citation;
  std::optional<findings::Confidence> confidence;  ///< of a rule; none of a plan
  std::uint64_t entry = 0;                         ///< that a plan stands in; else 0
};

struct FindingsListFigures {
  Frame frame;
  base::Zone zone;
  std::vector<FindingFigures> findings;  ///< by severity, then day
  int days_ahead = 0;                    ///< how far ahead `due` reaches
  std::vector<DueFigures> due;           ///< by day
  std::vector<DueFigures> planned;       ///< collections, by day
};

/// What weighs most first; of one weight by the last day to act, else by the day it began.
void sort_findings(std::vector<FindingFigures>& findings, const base::Zone& zone);

/// How many of a severity there are.
std::size_t count_of(const FindingsListFigures& figures, findings::Severity severity);

base::Json findings_list_json(const FindingsListFigures& figures);

}  // namespace benchwarden::reports
