#include "reports/inspection_sheet.h"

#include <algorithm>
#include <cassert>

#include "reports/course_json.h"
#include "reports/history_document.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kInspectionSheet = "inspection-sheet";
constexpr std::string_view kInspection = "tool-inspection";

/// Rows to write on beside those of the last points, and in all where there are none: five up and
/// five down. Common practice, no source.
constexpr std::size_t kEmptyRows = 2;
constexpr std::size_t kRowsWithoutPoints = 10;

struct SheetOfOne {
  const InspectionSheetFigures& figures;
  HistoryParts parts;
  const ReportDefinition& definition;
  const ReportData& data;
};

/// A row high enough to be written on by hand.
TableLine line_to_write_on() {
  TableLine line;
  line.details.emplace_back("\u00A0");
  return line;
}

TableLine asked_line(const SheetOfOne& sheet, const PointAsked& point, std::size_t index) {
  TableLine line = line_to_write_on();
  line.name = std::to_string(index + 1);
  line.cells["reference_bar"] = rounded_cell(point.reference);
  line.cells["limit_bar"] = point.limit ? rounded_cell(*point.limit) : no_cell(sheet.data.wording);
  return line;
}

Blocks point_blocks(const SheetOfOne& sheet, const SectionDefinition& section) {
  const std::vector<PointAsked>& points = sheet.figures.points;
  std::vector<TableLine> lines;
  for (std::size_t i = 0; i < points.size(); ++i) {
    lines.push_back(asked_line(sheet, points[i], i));
  }
  const std::size_t wanted = points.empty() ? kRowsWithoutPoints : points.size() + kEmptyRows;
  while (lines.size() < wanted) lines.push_back(line_to_write_on());
  const ReportWording& wording = sheet.data.wording;
  const TableWords words{
      "points", wording.text(points.empty() ? Key("sheet.points") : Key("sheet.points_of")),
      wording.text("course.no_points")};
  return {lay_out(section, lines, words, "", wording)};
}

Blocks sheet_blocks_of(const SheetOfOne& sheet, const SectionDefinition& section) {
  const ReportWording& wording = sheet.data.wording;
  if (section.id == "register") return register_blocks(sheet.parts, section);
  if (section.id == "inspections") return check_blocks(sheet.parts, section);
  if (section.id == "questions") return {checklist_of(sheet.figures.form, wording)};
  if (section.id == "points") return point_blocks(sheet, section);
  if (section.id == "filled") return filled_blocks(wording);
  if (section.id == "entered") return entered_blocks(wording);
  if (section.id == "cautions") return caution_blocks(sheet.definition, sheet.data);
  assert(section.id == "methods");
  return history_method_blocks(sheet.parts, {wording.text("methods.errors")});
}

}  // namespace

void keep_last_checks(HistoryFigures& history, std::size_t count) {
  std::erase_if(history.checks, [](const HistoryLine& check) { return check.struck; });
  if (history.checks.size() <= count) return;
  history.checks.erase(history.checks.begin(),
                       history.checks.end() - static_cast<std::ptrdiff_t>(count));
}

std::vector<PointAsked> up_and_down(std::vector<PointAsked> points) {
  const auto lower = [](const PointAsked& a, const PointAsked& b) {
    return a.reference < b.reference;
  };
  if (points.size() < 2 || !std::is_sorted(points.begin(), points.end(), lower)) return points;
  const std::vector<PointAsked> rising = points;
  points.insert(points.end(), rising.rbegin(), rising.rend());
  return points;
}

base::Json inspection_sheet_json(const InspectionSheetFigures& figures) {
  base::JsonObject json =
      history_json(figures.history, std::string(kInspectionSheet), figures.history.thing_class);
  base::JsonArray points;
  for (const PointAsked& point : figures.points) {
    base::Json limit;
    if (point.limit) limit = base::Decimal{thousandths_of(*point.limit)};
    points.emplace_back(base::JsonObject{
        {"reference_bar", base::Decimal{thousandths_of(point.reference)}}, {"limit_bar", limit}});
  }
  json.emplace_back("form", form_asked_json(figures.form));
  json.emplace_back("points", std::move(points));
  return json;
}

document::Document inspection_sheet_document(const InspectionSheetFigures& figures,
                                             const ReportData& data) {
  const ReportDefinition& definition = data.definitions.get(kInspectionSheet);
  const SheetOfOne sheet{figures,
                         {figures.history,
                          data.wording,
                          Texts(figures.history.frame, data.wording),
                          kInspection,
                          {"inspected_class", "tool", "gauge", "points"}},
                         definition,
                         data};
  const bool is_gauge = figures.history.thing_class == "gauge";
  document::Document document = history_document(
      sheet.parts, definition,
      data.wording.text(is_gauge ? Key("page.period_gauge") : Key("page.period_tool"),
                        {{"thing", figures.history.id}}));
  document.subject_lines.resize(1);  // which thing it is
  for (std::string& line : sheet_subject_lines(figures.history.frame, data.wording)) {
    document.subject_lines.push_back(std::move(line));
  }
  for (const SectionDefinition& section : definition.sections) {
    document.sections.push_back(
        titled_section(data.wording, definition.id, section.id, sheet_blocks_of(sheet, section)));
  }
  return document;
}

}  // namespace benchwarden::reports
