#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "document/table.h"
#include "reports/definition.h"
#include "reports/wording.h"

namespace benchwarden::reports {

/// What stands in one cell, before it is known how many places its column needs.
struct CellValue {
  std::string text;
  std::optional<std::string> raw;
  std::optional<std::int64_t> millionths;  ///< a number of the column's unit; `text` is not read
  std::string link = {};                   ///< the anchor of what is behind it
};
CellValue text_cell(std::string text);
CellValue text_cell(std::string text, std::string raw);
CellValue number_cell(std::int64_t millionths);
/// A calculated value of the column's unit, rounded to the thousandth.
CellValue rounded_cell(double value);
CellValue count_cell(std::uint64_t count);
/// No figure: a dash for people, nothing for machines.
CellValue no_cell(const ReportWording& wording);
CellValue number_or_none(const std::optional<std::int64_t>& millionths,
                         const ReportWording& wording);

CellValue linked(CellValue cell, std::string anchor);

/// One row by names of columns; a column it does not name stays blank. "entry" makes it a row about
/// that entry, also where the table has no such column.
struct TableLine {
  std::map<std::string_view, CellValue> cells;
  document::RowKind kind = document::RowKind::kNormal;
  std::vector<std::string> details;
  std::string name;
  std::string anchor = {};
};

struct TableWords {
  std::string name;  ///< for machines
  std::string caption;
  std::string when_empty;
};

/// The columns of the definition, each with places enough to print every one of its numbers
/// exactly, so that printed rows add up to printed totals. `counted_unit`: the unit id of columns
/// whose unit is that of the table.
document::Table lay_out(const SectionDefinition& section, const std::vector<TableLine>& lines,
                        const TableWords& words, std::string_view counted_unit,
                        const ReportWording& wording);

}  // namespace benchwarden::reports
