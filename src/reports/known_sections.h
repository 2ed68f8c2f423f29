#pragma once

#include <span>
#include <string_view>

#include "document/table.h"

namespace benchwarden::reports {

/// How the numbers of a column are printed. Its heading is the sentence "column.<name>".
struct KnownColumn {
  std::string_view name;
  document::Align align = document::Align::kText;
  /// A unit id of quantities; "counted": that of the table's own amounts; "": no unit.
  std::string_view unit = {};
  int places = 0;  ///< kDecimal: at least
};
std::span<const KnownColumn> known_columns();
const KnownColumn& known_column(std::string_view name);  ///< asserts that it is known

/// A part of a report that the code can make, and the columns its tables may have.
struct KnownSection {
  std::string_view report;
  std::string_view id;
  std::span<const std::string_view> columns;  ///< empty: no table with columns to choose
};
std::span<const KnownSection> known_sections();
const KnownSection* find_section(std::string_view report, std::string_view id);

}  // namespace benchwarden::reports
