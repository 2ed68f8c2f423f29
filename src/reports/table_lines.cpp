#include "reports/table_lines.h"

#include <algorithm>
#include <charconv>

#include "quantities/units.h"
#include "reports/course_json.h"
#include "reports/known_sections.h"
#include "reports/number_text.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kCounted = "counted";

const CellValue* find_cell(const TableLine& line, std::string_view column) {
  const auto found = line.cells.find(column);
  return found == line.cells.end() ? nullptr : &found->second;
}

document::Column column_of(const KnownColumn& known, std::string_view counted_unit,
                           const ReportWording& wording) {
  const std::string_view unit_id = known.unit == kCounted ? counted_unit : known.unit;
  const quantities::Unit* unit = unit_id.empty() ? nullptr : quantities::find_unit(unit_id);
  return {wording.column(known.name), unit == nullptr ? "" : std::string(unit->symbol), known.align,
          std::string(known.name)};
}

int places_of(const KnownColumn& known, const std::vector<TableLine>& lines) {
  int places = known.places;
  for (const TableLine& line : lines) {
    const CellValue* cell = find_cell(line, known.name);
    if (cell != nullptr && cell->millionths) places = places_needed(*cell->millionths, places);
  }
  return places;
}

document::Cell written(const CellValue& value, int places) {
  document::Cell cell{value.text, value.raw};
  if (value.millionths) {
    const bool fits = places <= kPrintedPlacesMax;
    cell.text = fits ? number_text(*value.millionths, places)
                     : number_text(to_printed(*value.millionths), kPrintedPlacesMax);
    cell.raw = plain_number(*value.millionths, places);
  }
  cell.link = value.link;
  return cell;
}

/// A line about an entry has its number in the column of that name, printed or not.
std::uint64_t entry_of(const TableLine& line) {
  std::uint64_t entry = 0;
  const CellValue* cell = find_cell(line, "entry");
  if (cell == nullptr || !cell->raw) return 0;
  const char* end = cell->raw->data() + cell->raw->size();
  return std::from_chars(cell->raw->data(), end, entry).ptr == end ? entry : 0;
}

document::Row row_of(const TableLine& line, const std::vector<const KnownColumn*>& columns,
                     const std::vector<int>& places) {
  document::Row row;
  row.kind = line.kind;
  row.details = line.details;
  row.name = line.name;
  row.entry = entry_of(line);
  row.anchor = line.anchor;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const CellValue* value = find_cell(line, columns[i]->name);
    document::Cell cell = value == nullptr ? document::Cell{} : written(*value, places[i]);
    if (line.kind == document::RowKind::kTotal) cell.emphasis = document::Emphasis::kStrong;
    row.cells.push_back(std::move(cell));
  }
  return row;
}

}  // namespace

CellValue text_cell(std::string text) { return {std::move(text), std::nullopt, std::nullopt}; }

CellValue text_cell(std::string text, std::string raw) {
  return {std::move(text), std::move(raw), std::nullopt};
}

CellValue number_cell(std::int64_t millionths) { return {"", std::nullopt, millionths}; }

CellValue rounded_cell(double value) { return number_cell(thousandths_of(value) * 1'000); }

CellValue count_cell(std::uint64_t count) {
  return {count_text(count), std::to_string(count), std::nullopt};
}

CellValue no_cell(const ReportWording& wording) {
  return {wording.text("word.no_figure"), "", std::nullopt};
}

CellValue number_or_none(const std::optional<std::int64_t>& millionths,
                         const ReportWording& wording) {
  return millionths ? number_cell(*millionths) : no_cell(wording);
}

CellValue linked(CellValue cell, std::string anchor) {
  cell.link = std::move(anchor);
  return cell;
}

document::Table lay_out(const SectionDefinition& section, const std::vector<TableLine>& lines,
                        const TableWords& words, std::string_view counted_unit,
                        const ReportWording& wording) {
  document::Table table;
  table.caption = words.caption;
  table.when_empty = words.when_empty;
  table.name = words.name;
  std::vector<const KnownColumn*> columns;
  std::vector<int> places;
  for (const std::string& name : section.columns) {
    columns.push_back(&known_column(name));
    places.push_back(places_of(*columns.back(), lines));
    table.columns.push_back(column_of(*columns.back(), counted_unit, wording));
  }
  for (const TableLine& line : lines) table.rows.push_back(row_of(line, columns, places));
  return table;
}

}  // namespace benchwarden::reports
