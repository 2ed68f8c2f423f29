#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace benchwarden::document {

/// How the cells of a column stand: text to the left, whole numbers to the right, decimals on
/// their decimal mark.
enum class Align { kText, kNumber, kDecimal };

enum class Emphasis { kNormal, kStrong };

struct Column {
  std::string heading;
  std::string unit;  ///< printed under the heading; also the unit of the raw values; may be empty
  Align align = Align::kText;
  std::string name = {};  ///< for machines, e.g. "volume_l"; the heading when empty
};

/// `text` is for people, `raw` for machines: the value in the column's unit, plain digits with a
/// point, no thousands separators. Without `raw` the text serves both.
struct Cell {
  std::string text;
  std::optional<std::string> raw = std::nullopt;
  Emphasis emphasis = Emphasis::kNormal;
  std::string link = {};  ///< to what is behind it, see blocks.h
};

enum class RowKind {
  kNormal,
  kTotal,  ///< stays on one page with the two rows before it
  kNote,   ///< its first cell runs across the whole table; no other cell is read
};

struct Row {
  std::vector<Cell> cells;  ///< one per column, but for kNote
  RowKind kind = RowKind::kNormal;
  std::vector<std::string> details = {};  ///< full-width lines under the row, never parted from it
  std::string name = {};                  ///< for machines; the row's position when empty
  std::string anchor = {};                ///< see blocks.h
  std::uint64_t entry = 0;                ///< number of the entry it is about, for the index; or 0
};

struct Table {
  std::string caption;
  std::vector<Column> columns;
  std::vector<Row> rows;
  std::string when_empty = {};  ///< printed instead of rows when there are none
  std::string name = {};        ///< for machines; the caption when empty
};

}  // namespace benchwarden::document
