#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/json.h"
#include "reports/input.h"
#include "tallies/claims.h"

namespace benchwarden::reports {

struct Person {
  std::string id;
  bool verified = true;
  std::optional<tallies::Answer> answer = {};  ///< what they said later, where they were not
  friend bool operator==(const Person&, const Person&) = default;
};

/// What identifies an entry on paper.
struct EntryFigures {
  std::uint64_t seq = 0;
  std::string kind;
  base::Timestamp occurred_at;  ///< in the workshop's zone
  base::Timestamp recorded_at;
  Person person;
};
EntryFigures entry_figures(const entries::Entry& entry, const base::Zone& zone,
                           const tallies::Claims& claims);
base::JsonObject entry_figures_json(const EntryFigures& entry);

struct FieldChange {
  std::string field;
  std::optional<entries::FieldValue> before;  ///< none: it was not given
  std::optional<entries::FieldValue> after;   ///< none: it was cleared
};

/// One correction or strike-out beside what it corrects.
struct CorrectionFigures {
  EntryFigures target;
  EntryFigures by;
  std::string reason;
  bool struck = false;
  std::vector<FieldChange> changes;  ///< against what the entry said until then
};

/// In order of the book.
std::vector<CorrectionFigures> corrections_of(const RecordedEntry& recorded, const base::Zone& zone,
                                              const tallies::Claims& claims);
base::Json correction_json(const CorrectionFigures& correction);
base::Json value_json(const std::string& field, const std::optional<entries::FieldValue>& value);

}  // namespace benchwarden::reports
