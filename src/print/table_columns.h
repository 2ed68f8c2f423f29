#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "document/table.h"
#include "print/font_metrics.h"
#include "print/length.h"

namespace benchwarden::print {

struct ColumnPlace {
  Mpt left = 0;      ///< of the text, from the left edge of the table
  Mpt width = 0;     ///< of the text; the padding is outside
  Mpt fraction = 0;  ///< kDecimal: from the decimal mark to the right edge of the text
};

/// Where the digits of a decimal end and its mark begins: the last "." or "," between digits.
/// Without one, the end of the last digit. nullopt for text without a digit.
std::optional<std::size_t> decimal_mark(std::string_view text);

/// Places the columns of a table (of printable text) side by side over `width`. Number columns
/// are as wide as their widest cell, never wrapped; text columns share what is left by need: first
/// what their longest words need, then nine of ten cells, then the longest. nullopt when the
/// numbers leave less than a few letters for each text column.
std::optional<std::vector<ColumnPlace>> place_columns(const document::Table& table, Mpt width,
                                                      Mpt size, const FontMetrics& font);

inline constexpr Mpt kCellPadding = points(4);  ///< left and right of each cell

}  // namespace benchwarden::print
