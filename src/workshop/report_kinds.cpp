#include "workshop/report_kinds.h"

#include <algorithm>
#include <array>

#include "workshop/report_makers.h"

namespace benchwarden::workshop {
namespace {

constexpr std::array<std::string_view, 1> kCaution{"caution"};
constexpr std::array<std::string_view, 1> kCollection{"collection"};
constexpr std::array<std::string_view, 1> kCylinder{"cylinder"};
constexpr std::array<std::string_view, 4> kLabelled{"container", "cylinder", "tool", "gauge"};
constexpr std::array<std::string_view, 2> kTools{"tool", "gauge"};

constexpr std::array kReportKinds = {
    ReportKind{"audit-pack", About::kDays, {}, false, Issuing::kIssued, make_audit_pack},
    ReportKind{"briefing-sheet", About::kSubject, kCaution, false, Issuing::kNever,
               make_briefing_sheet},
    ReportKind{"collection-sheet", About::kSubject, kCollection, false, Issuing::kIssued,
               make_collection_sheet},
    ReportKind{"cylinder-history", About::kSubject, kCylinder, false, Issuing::kIssued,
               make_cylinder_history},
    ReportKind{"findings-list", About::kWorkshop, {}, false, Issuing::kIssued, make_findings_list},
    ReportKind{"inspection-sheet", About::kSubject, kTools, false, Issuing::kNever,
               make_inspection_sheet},
    ReportKind{"label", About::kSubject, kLabelled, true, Issuing::kNever, make_label},
    ReportKind{"tool-history", About::kSubject, kTools, false, Issuing::kIssued, make_tool_history},
    ReportKind{
        "walk-round-sheet", About::kWorkshop, {}, false, Issuing::kNever, make_walk_round_sheet},
    ReportKind{"waste-month", About::kMonth, {}, false, Issuing::kIssued, make_waste_month},
    ReportKind{"waste-year", About::kYear, {}, false, Issuing::kIssued, make_waste_year},
};

}  // namespace

std::span<const ReportKind> report_kinds() { return kReportKinds; }

const ReportKind* find_report_kind(std::string_view name) {
  const auto* found = std::find_if(kReportKinds.begin(), kReportKinds.end(),
                                   [&](const ReportKind& kind) { return kind.name == name; });
  return found == kReportKinds.end() ? nullptr : found;
}

}  // namespace benchwarden::workshop
