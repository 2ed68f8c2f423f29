#include "reports/known_sections.h"

#include <algorithm>
#include <array>
#include <cassert>

namespace benchwarden::reports {
namespace {

using document::Align;

// Times are all of one length and never wrapped, so they stand like whole numbers.
constexpr std::array kColumns{
    KnownColumn{"entry", Align::kNumber},
    KnownColumn{"stream"},
    KnownColumn{"low_code"},
    KnownColumn{"hazardous"},
    KnownColumn{"arisen_kg", Align::kDecimal, "kg", 3},
    KnownColumn{"arisen_l", Align::kDecimal, "l", 3},
    KnownColumn{"collected_kg", Align::kDecimal, "kg", 3},
    KnownColumn{"collected_l", Align::kDecimal, "l", 3},
    KnownColumn{"standing_kg", Align::kDecimal, "kg", 3},
    KnownColumn{"standing_l", Align::kDecimal, "l", 3},
    KnownColumn{"container"},
    KnownColumn{"limit_percent", Align::kDecimal, "percent", 1},
    KnownColumn{"oldest_content", Align::kNumber},
    KnownColumn{"taken_at", Align::kNumber},
    KnownColumn{"document_number"},
    KnownColumn{"carrier"},
    KnownColumn{"weighed_kg", Align::kDecimal, "kg", 3},
    KnownColumn{"document_returned"},
    KnownColumn{"opening", Align::kDecimal, "counted", 3},
    KnownColumn{"added", Align::kDecimal, "counted", 3},
    KnownColumn{"moved_in", Align::kDecimal, "counted", 3},
    KnownColumn{"moved_out", Align::kDecimal, "counted", 3},
    KnownColumn{"taken", Align::kDecimal, "counted", 3},
    KnownColumn{"emptied", Align::kDecimal, "counted", 3},
    KnownColumn{"corrections", Align::kDecimal, "counted", 3},
    KnownColumn{"closing", Align::kDecimal, "counted", 3},
    KnownColumn{"read_at", Align::kNumber},
    KnownColumn{"reading", Align::kDecimal, "counted", 3},
    KnownColumn{"logged", Align::kDecimal, "counted", 3},
    KnownColumn{"difference", Align::kDecimal, "counted", 3},
    KnownColumn{"occurred_at", Align::kNumber},
    KnownColumn{"kind"},
    KnownColumn{"effect"},
    KnownColumn{"change", Align::kDecimal, "counted", 3},
    KnownColumn{"person"},
    KnownColumn{"attribute"},
    KnownColumn{"value"},
    KnownColumn{"checked_at", Align::kNumber},
    KnownColumn{"gauge_pressure_bar", Align::kDecimal, "bar", 1},
    KnownColumn{"gauge_pressure_psi", Align::kNumber, "psi"},
    KnownColumn{"ambient_temperature_c", Align::kDecimal, "c", 1},
    KnownColumn{"leak_test"},
    KnownColumn{"result"},
    KnownColumn{"act"},
    KnownColumn{"event"},
    KnownColumn{"content_kg", Align::kDecimal, "kg", 3},
    KnownColumn{"content_m3", Align::kDecimal, "m3", 3},
    KnownColumn{"logged_use_kg", Align::kDecimal, "kg", 3},
    KnownColumn{"loss_kg", Align::kDecimal, "kg", 3},
    KnownColumn{"uncertainty_kg", Align::kDecimal, "kg", 3},
    KnownColumn{"verdict"},
    KnownColumn{"reference_bar", Align::kDecimal, "bar", 1},
    KnownColumn{"as_found_bar", Align::kDecimal, "bar", 1},
    KnownColumn{"as_left_bar", Align::kDecimal, "bar", 1},
    KnownColumn{"error_bar", Align::kDecimal, "bar", 1},
    KnownColumn{"limit_bar", Align::kDecimal, "bar", 1},
    KnownColumn{"beyond_limit"},
    // findings-list
    KnownColumn{"sentence"},
    KnownColumn{"measured"},
    KnownColumn{"limit"},
    KnownColumn{"since", Align::kNumber},
    KnownColumn{"due_day", Align::kNumber},
    KnownColumn{"source"},
    KnownColumn{"done"},
    // audit-pack
    KnownColumn{"thing"},
    KnownColumn{"corrects", Align::kNumber},
    KnownColumn{"report"},
    KnownColumn{"about"},
    KnownColumn{"book_size", Align::kNumber},
    // sheets to be filled in
    KnownColumn{"briefed_at", Align::kNumber},
    KnownColumn{"valid_until", Align::kNumber},
    // waste-year
    KnownColumn{"national_code"},
    KnownColumn{"arisen", Align::kDecimal, "counted", 3},
    KnownColumn{"other", Align::kDecimal, "counted", 3},
    KnownColumn{"month"},
    KnownColumn{"registration_number"},
    KnownColumn{"registration_expires", Align::kNumber},
    KnownColumn{"collections", Align::kNumber},
    KnownColumn{"period"},
    KnownColumn{"code"},
    KnownColumn{"streams"},
    KnownColumn{"amount", Align::kDecimal, "counted", 3},
    KnownColumn{"weighed", Align::kDecimal, "counted", 3},
    KnownColumn{"not_acute_kg", Align::kDecimal, "kg", 3},
    KnownColumn{"acute_kg", Align::kDecimal, "kg", 3},
    KnownColumn{"spill_residue_kg", Align::kDecimal, "kg", 3},
    KnownColumn{"category"},
    KnownColumn{"month_state"},
    KnownColumn{"closed_by"},
    KnownColumn{"figures_signed"},
    // collection-sheet; "emptied" of a balance is an amount
    KnownColumn{"volume_l", Align::kDecimal, "l", 3},
    KnownColumn{"mass_kg", Align::kDecimal, "kg", 3},
    KnownColumn{"left_empty"},
    KnownColumn{"accumulation_start", Align::kNumber},
    KnownColumn{"stage"},
};

constexpr std::array<std::string_view, 9> kStreams{"stream",      "low_code",    "hazardous",
                                                   "arisen_kg",   "arisen_l",    "collected_kg",
                                                   "collected_l", "standing_kg", "standing_l"};
constexpr std::array<std::string_view, 6> kLevels{"container",   "stream",        "standing_l",
                                                  "standing_kg", "limit_percent", "oldest_content"};
constexpr std::array<std::string_view, 10> kCollections{
    "taken_at",    "document_number", "carrier",    "container",         "stream",
    "collected_l", "collected_kg",    "weighed_kg", "document_returned", "entry"};
constexpr std::array<std::string_view, 9> kBalance{"container", "opening",     "added",
                                                   "moved_in",  "moved_out",   "taken",
                                                   "emptied",   "corrections", "closing"};
constexpr std::array<std::string_view, 6> kDifferences{"container", "read_at", "entry",
                                                       "reading",   "logged",  "difference"};
constexpr std::array<std::string_view, 6> kEntries{"entry",  "occurred_at", "kind",
                                                   "effect", "change",      "person"};
constexpr std::array<std::string_view, 2> kRegisterColumns{"attribute", "value"};
constexpr std::array<std::string_view, 8> kChecks{"entry",
                                                  "checked_at",
                                                  "gauge_pressure_bar",
                                                  "gauge_pressure_psi",
                                                  "ambient_temperature_c",
                                                  "leak_test",
                                                  "result",
                                                  "person"};
constexpr std::array<std::string_view, 11> kCylinderCourse{"entry",
                                                           "occurred_at",
                                                           "event",
                                                           "gauge_pressure_bar",
                                                           "ambient_temperature_c",
                                                           "content_kg",
                                                           "content_m3",
                                                           "logged_use_kg",
                                                           "loss_kg",
                                                           "uncertainty_kg",
                                                           "verdict"};
constexpr std::array<std::string_view, 8> kGaugeCourse{
    "entry",       "occurred_at", "reference_bar", "as_found_bar",
    "as_left_bar", "error_bar",   "limit_bar",     "beyond_limit"};
constexpr std::array<std::string_view, 4> kInspections{"entry", "checked_at", "result", "person"};
constexpr std::array<std::string_view, 4> kChanges{"entry", "occurred_at", "act", "person"};

constexpr std::array<std::string_view, 5> kFindings{"sentence", "measured", "limit", "since",
                                                    "due_day"};
constexpr std::array<std::string_view, 4> kCalendar{"due_day", "sentence", "source", "done"};
constexpr std::array<std::string_view, 4> kPlanned{"due_day", "sentence", "entry", "done"};

constexpr std::array<std::string_view, 5> kPackChanges{"entry", "occurred_at", "thing", "act",
                                                       "person"};
constexpr std::array<std::string_view, 5> kPackCorrections{"entry", "occurred_at", "corrects",
                                                           "kind", "person"};
constexpr std::array<std::string_view, 4> kPackOthers{"entry", "occurred_at", "kind", "person"};
constexpr std::array<std::string_view, 6> kPackIssued{"entry", "occurred_at", "report",
                                                      "about", "book_size",   "person"};

constexpr std::array<std::string_view, 4> kPointsAsked{"reference_bar", "limit_bar", "as_found_bar",
                                                       "as_left_bar"};
constexpr std::array<std::string_view, 4> kBriefed{"person", "briefed_at", "valid_until", "entry"};
constexpr std::array<std::string_view, 9> kYearStreams{
    "stream",   "low_code",     "national_code", "hazardous",  "arisen_kg",
    "arisen_l", "collected_kg", "collected_l",   "standing_kg"};
constexpr std::array<std::string_view, 6> kYearBalance{"stream", "opening", "arisen",
                                                       "taken",  "other",   "closing"};
constexpr std::array<std::string_view, 8> kYearMonths{
    "month", "opening", "arisen", "taken", "other", "closing", "arisen_kg", "collected_kg"};
constexpr std::array<std::string_view, 4> kYearCarriers{"carrier", "registration_number",
                                                        "registration_expires", "collections"};
constexpr std::array<std::string_view, 5> kYearReturns{"period", "code", "streams", "amount",
                                                       "weighed"};
constexpr std::array<std::string_view, 5> kYearGenerator{"month", "not_acute_kg", "acute_kg",
                                                         "spill_residue_kg", "category"};
constexpr std::array<std::string_view, 4> kYearClosing{"month", "month_state", "closed_by",
                                                       "figures_signed"};

constexpr std::array<std::string_view, 9> kSheetLoads{
    "container",  "stream",     "low_code",           "volume_l", "mass_kg",
    "weighed_kg", "left_empty", "accumulation_start", "entry"};
constexpr std::array<std::string_view, 5> kSheetStages{"entry", "occurred_at", "stage",
                                                       "document_number", "person"};

constexpr std::array kSections{
    KnownSection{"inspection-sheet", "register", kRegisterColumns},
    KnownSection{"inspection-sheet", "inspections", kInspections},
    KnownSection{"inspection-sheet", "filled", {}},
    KnownSection{"inspection-sheet", "questions", {}},
    KnownSection{"inspection-sheet", "points", kPointsAsked},
    KnownSection{"inspection-sheet", "entered", {}},
    KnownSection{"inspection-sheet", "cautions", {}},
    KnownSection{"inspection-sheet", "methods", {}},
    KnownSection{"walk-round-sheet", "filled", {}},
    KnownSection{"walk-round-sheet", "walk", {}},
    KnownSection{"walk-round-sheet", "things", {}},
    KnownSection{"walk-round-sheet", "entered", {}},
    KnownSection{"walk-round-sheet", "cautions", {}},
    KnownSection{"walk-round-sheet", "methods", {}},
    KnownSection{"briefing-sheet", "caution", {}},
    KnownSection{"briefing-sheet", "validity", {}},
    KnownSection{"briefing-sheet", "briefed", kBriefed},
    KnownSection{"briefing-sheet", "sign", {}},
    KnownSection{"briefing-sheet", "entered", {}},
    KnownSection{"briefing-sheet", "methods", {}},
    KnownSection{"audit-pack", "figures", {}},
    KnownSection{"audit-pack", "contents", {}},
    KnownSection{"audit-pack", "changes", kPackChanges},
    KnownSection{"audit-pack", "corrections", kPackCorrections},
    KnownSection{"audit-pack", "issued", kPackIssued},
    KnownSection{"audit-pack", "others", kPackOthers},
    KnownSection{"audit-pack", "signature", {}},
    KnownSection{"audit-pack", "cautions", {}},
    KnownSection{"audit-pack", "methods", {}},
    KnownSection{"audit-pack", "index", {}},
    KnownSection{"findings-list", "figures", {}},
    KnownSection{"findings-list", "over", kFindings},
    KnownSection{"findings-list", "due", kFindings},
    KnownSection{"findings-list", "note", kFindings},
    KnownSection{"findings-list", "calendar", kCalendar},
    KnownSection{"findings-list", "planned", kPlanned},
    KnownSection{"findings-list", "signature", {}},
    KnownSection{"findings-list", "methods", {}},
    KnownSection{"waste-month", "figures", {}},
    KnownSection{"waste-month", "streams", kStreams},
    KnownSection{"waste-month", "levels", kLevels},
    KnownSection{"waste-month", "collections", kCollections},
    KnownSection{"waste-month", "balance", kBalance},
    KnownSection{"waste-month", "differences", kDifferences},
    KnownSection{"waste-month", "quality", {}},
    KnownSection{"waste-month", "methods", {}},
    KnownSection{"waste-month", "cautions", {}},
    KnownSection{"waste-month", "closing", {}},
    KnownSection{"waste-month", "signature", {}},
    KnownSection{"waste-month", "charts", {}},
    KnownSection{"waste-month", "entries", kEntries},
    KnownSection{"waste-year", "figures", {}},
    KnownSection{"waste-year", "streams", kYearStreams},
    KnownSection{"waste-year", "balance", kYearBalance},
    KnownSection{"waste-year", "months", kYearMonths},
    KnownSection{"waste-year", "consignments", kCollections},
    KnownSection{"waste-year", "carriers", kYearCarriers},
    KnownSection{"waste-year", "returns", kYearReturns},
    KnownSection{"waste-year", "generator", kYearGenerator},
    KnownSection{"waste-year", "quality", {}},
    KnownSection{"waste-year", "closing", kYearClosing},
    KnownSection{"waste-year", "signature", {}},
    KnownSection{"waste-year", "cautions", {}},
    KnownSection{"waste-year", "methods", {}},
    KnownSection{"collection-sheet", "figures", {}},
    KnownSection{"collection-sheet", "parties", kRegisterColumns},
    KnownSection{"collection-sheet", "loads", kSheetLoads},
    KnownSection{"collection-sheet", "stages", kSheetStages},
    KnownSection{"collection-sheet", "signature", {}},
    KnownSection{"collection-sheet", "cautions", {}},
    KnownSection{"collection-sheet", "methods", {}},
    KnownSection{"cylinder-history", "register", kRegisterColumns},
    KnownSection{"cylinder-history", "course", kCylinderCourse},
    KnownSection{"cylinder-history", "checks", kChecks},
    KnownSection{"cylinder-history", "changes", kChanges},
    KnownSection{"cylinder-history", "methods", {}},
    KnownSection{"cylinder-history", "cautions", {}},
    KnownSection{"cylinder-history", "signature", {}},
    KnownSection{"label", "stream", {}},
    KnownSection{"label", "container", {}},
    KnownSection{"label", "cylinder", {}},
    KnownSection{"label", "tool", {}},
    KnownSection{"label", "gauge", {}},
    KnownSection{"tool-history", "register", kRegisterColumns},
    KnownSection{"tool-history", "course", kGaugeCourse},
    KnownSection{"tool-history", "inspections", kInspections},
    KnownSection{"tool-history", "changes", kChanges},
    KnownSection{"tool-history", "methods", {}},
    KnownSection{"tool-history", "cautions", {}},
    KnownSection{"tool-history", "signature", {}},
};

}  // namespace

std::span<const KnownColumn> known_columns() { return kColumns; }

const KnownColumn& known_column(std::string_view name) {
  const auto* found = std::find_if(kColumns.begin(), kColumns.end(),
                                   [&](const KnownColumn& column) { return column.name == name; });
  assert(found != kColumns.end());
  return *found;
}

std::span<const KnownSection> known_sections() { return kSections; }

const KnownSection* find_section(std::string_view report, std::string_view id) {
  const auto* found = std::find_if(
      kSections.begin(), kSections.end(),
      [&](const KnownSection& section) { return section.report == report && section.id == id; });
  return found == kSections.end() ? nullptr : found;
}

}  // namespace benchwarden::reports
