#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace benchwarden::document {

struct Bar {
  std::string name;        ///< under the bar: "Oct 2026"
  std::int64_t value = 0;  ///< in thousandths of the chart's unit, not below 0
  std::string value_text;  ///< over the bar, as the table beside it prints it
};

/// Amounts side by side, from 0 on, readable in grey. The figures themselves stand in a table
/// beside it, for machines too.
struct BarChart {
  std::string caption;
  std::string value_label;  ///< with the unit
  std::vector<Bar> bars;    ///< at most 24
};

}  // namespace benchwarden::document
