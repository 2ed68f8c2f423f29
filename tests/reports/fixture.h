#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "document/document.h"
#include "reports/input.h"
#include "reports/report_data.h"
#include "reports/waste_month.h"
#include "tallies/state.h"

// A small language for the tests of this folder: a book whose entries are told twice, as entries
// and as what they do to the state, the way the workshop hands them over.

namespace benchwarden::reports {

base::Instant at(std::string_view rfc3339);
base::Zone berlin();
quantities::Quantity measured(std::string_view unit, std::int64_t thousandths);
entries::Field text(const std::string& name, const std::string& value);
entries::Field code(const std::string& name, const std::string& value);
entries::Field number(const std::string& name, std::string_view unit, std::int64_t thousandths);
entries::Amount volume_ml(std::int64_t thousandths);
entries::Amount mass_g(std::int64_t thousandths);

/// The project's own files below `folder`, as they are embedded in the program.
base::DataFiles project_files(const std::string& folder);
const ReportData& project_data();

struct Written {
  std::string kind;
  std::string occurred_at;
  entries::Fields fields;
  entries::Effects effects;
  std::string recorded_at = {};  ///< as it occurred when empty
  Person person = {"p1", true};
};

struct Amended {
  std::uint64_t target = 0;
  std::string recorded_at;
  std::string reason;
  entries::Fields changes;   ///< struck out when empty
  entries::Effects effects;  ///< what the target does from now on
  Person person = {"p2", true};
};

class BookUnderTest {
 public:
  std::uint64_t enter(const Written& written);
  std::uint64_t amend(const Amended& amended);
  /// A register entry; its own attributes only.
  std::uint64_t put(const std::string& thing_class, const std::string& id,
                    const entries::Fields& attributes,
                    const std::string& occurred_at = "2026-01-05T08:00:00+01:00");
  std::uint64_t drain(const std::string& container, std::int64_t microlitres,
                      const std::string& occurred_at, const std::string& recorded_at = "",
                      const Person& person = {"p1", true});

  [[nodiscard]] const tallies::State& state() const { return state_; }
  [[nodiscard]] const std::vector<RecordedEntry>& entries() const { return entries_; }
  [[nodiscard]] std::vector<RecordedEntry> entries_of(const std::string& kind) const;

 private:
  tallies::State state_;
  std::vector<RecordedEntry> entries_;
  std::map<std::uint64_t, entries::Effects> standing_;
  std::uint64_t size_ = 0;
};

/// Site, two oil containers (w1 205 L, w2 60 L), a rag bin that is emptied into a drum, and
/// carrier k1. Oil has 870 kg/m³.
BookUnderTest workshop_book();
inline constexpr base::CivilMonth kOctober{2026, 10};
/// kOctober with one of everything; the figures are worked out by hand in waste_month_test.
BookUnderTest october_book();

Basis basis_at(std::string_view as_of);
WasteMonthFigures figures_of(const BookUnderTest& book, base::CivilMonth month,
                             std::string_view as_of = "2026-11-05T09:00:00+01:00");
/// The report of october_book.
document::Document october();

/// All tables, charts … of a document in their order.
template <class Kind>
std::vector<Kind> blocks_of(const document::Document& document) {
  std::vector<Kind> found;
  for (const document::Section& section : document.sections) {
    for (const document::Block& block : section.blocks) {
      if (const auto* one = std::get_if<Kind>(&block)) found.push_back(*one);
    }
  }
  return found;
}
/// The table of that name; the test fails where there is none.
document::Table table(const document::Document& document, const std::string& name);
std::vector<std::string> texts(const document::Row& row);

}  // namespace benchwarden::reports
