#pragma once

#include <optional>
#include <string>
#include <vector>

#include "reports/corrections.h"
#include "reports/frame.h"
#include "reports/input.h"

namespace benchwarden::reports {

/// What every history of one thing under care is made from.
struct HistoryInput {
  const tallies::State& state;
  std::string thing_class;
  std::string id;
  Basis basis;
  /// Every check of the thing as first recorded or as corrected, struck ones too, with all their
  /// corrections; those after as_of are passed over.
  std::vector<RecordedEntry> checks;
  /// Every register entry about it, likewise.
  std::vector<RecordedEntry> changes;
  Names names;
  FormTexts forms;
};

/// One entry about the thing as it stands after corrections.
struct HistoryLine {
  EntryFigures entry;
  entries::Fields fields;              ///< after corrections
  std::vector<entries::AsRead> typed;  ///< what stands as it was typed in another unit
  bool struck = false;
  std::vector<CorrectionFigures> corrections;
};

struct HistoryFigures {
  Frame frame;
  base::Zone zone;
  std::string thing_class;
  std::string id;
  std::string name;
  bool known = false;  ///< in the register
  bool retired = false;
  bool in_service = true;
  entries::Fields attributes;        ///< from the register, as it stands
  std::vector<HistoryLine> checks;   ///< in order of time, then of the book
  std::vector<HistoryLine> changes;  ///< in order of the book
};

HistoryLine history_line(const RecordedEntry& recorded, const base::Zone& zone,
                         const tallies::Claims& claims);
base::Json history_lines_json(const std::vector<HistoryLine>& lines);

/// Pure: equal input gives equal figures.
HistoryFigures make_history(const HistoryInput& input);

/// The members every history has, `subject_member` naming the thing.
base::JsonObject history_json(const HistoryFigures& figures, const std::string& report,
                              const std::string& subject_member);

/// A gauge pressure in whole psi, ties away from zero; none beyond the range of a quantity.
std::optional<std::int64_t> whole_psi(const quantities::Quantity& pressure);

}  // namespace benchwarden::reports
