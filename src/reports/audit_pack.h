#pragma once

#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include "base/json.h"
#include "reports/history.h"

namespace benchwarden::reports {

struct AuditPackInput {
  const tallies::State& state;
  base::CivilDate first;
  base::CivilDate last;
  Basis basis;
  /// Every entry of those days, and what was corrected on them.
  std::vector<RecordedEntry> entries;
  std::set<std::uint64_t> told;  ///< the entries a report bound into the pack has a line about
  Names names;
  FormTexts forms;
};

/// A report that was made for signature, as the book tells it.
struct IssuedFigures {
  EntryFigures entry;
  std::string report;     ///< its name
  entries::Fields about;  ///< a month, a thing, days …
  std::string digest;     ///< SHA-256 of the PDF, in hex
  std::uint64_t book_size = 0;
};

/// What a pack tells of its days beside the reports bound into it. What occurred on them belongs to
/// them, by the time of the entry itself: of a correction, not of what it corrects.
struct AuditPackFigures {
  Frame frame;
  base::Zone zone;
  base::CivilDate first;
  base::CivilDate last;
  std::vector<HistoryLine> changes;            ///< register entries, in order of the book
  std::vector<CorrectionFigures> corrections;  ///< in order of the book
  std::vector<IssuedFigures> issued;           ///< in order of the book
  std::vector<HistoryLine> others;  ///< all that has no line elsewhere in the pack, in that order
};

/// Pure: equal input gives equal figures.
AuditPackFigures make_audit_pack(const AuditPackInput& input);

/// A report bound into a pack.
struct PackedReport {
  std::string name;  ///< "waste-month/2026-10"
  base::Json json;
};
base::Json audit_pack_json(const AuditPackFigures& figures, std::vector<PackedReport> parts);

}  // namespace benchwarden::reports
