#include "print/table_bands.h"

#include <algorithm>
#include <utility>
#include <variant>

#include "print/table_columns.h"

namespace benchwarden::print {
namespace {

using document::Align;
using document::RowKind;

constexpr Mpt kRowPadding = points(2);
constexpr Mpt kDetailIndent = points(12);

/// The table with every text made printable, so that it is measured as it is drawn.
document::Table printable_table(document::Table table, const Typesetter& type) {
  table.caption = type.printable(table.caption);
  for (document::Column& column : table.columns) {
    column.heading = type.printable(column.heading);
    column.unit = type.printable(column.unit);
  }
  for (document::Row& row : table.rows) {
    for (document::Cell& cell : row.cells) {
      cell.text = type.printable(cell.text);
    }
  }
  return table;
}

class TableSetter {
 public:
  TableSetter(const document::Table& table, std::vector<ColumnPlace> places, const Typesetter& type)
      : table_(table), places_(std::move(places)), type_(type), size_(type.layout().table_size) {}

  [[nodiscard]] Band head() const {
    std::vector<std::vector<std::string>> headings;
    std::size_t depth = 0;
    bool units = false;
    for (std::size_t i = 0; i < places_.size(); ++i) {
      headings.push_back(type_.lines(table_.columns[i].heading, places_[i].width, strong_style()));
      depth = std::max(depth, headings.back().size());
      units = units || !table_.columns[i].unit.empty();
    }
    Band band;
    const Mpt pitch = type_.line_height(size_);
    const Mpt unit_top = kRowPadding + static_cast<Mpt>(depth) * pitch;
    band.height = unit_top + (units ? pitch : 0) + kRowPadding;
    band.draws.emplace_back(
        FillDraw{0, 0, type_.width(), band.height, type_.layout().shade_percent});
    for (std::size_t i = 0; i < places_.size(); ++i) {
      Mpt top = unit_top - static_cast<Mpt>(headings[i].size()) * pitch;
      for (const std::string& line : headings[i]) {
        band.draws.emplace_back(type_.line(line, edge_x(line, i), top, strong_style()));
        top += pitch;
      }
      const std::string& unit = table_.columns[i].unit;
      band.draws.emplace_back(type_.line(unit, edge_x(unit, i), unit_top, plain_style()));
    }
    rule(band, band.height, type_.layout().frame_width, 100);
    band.keep = Keep::kWithNext;
    return band;
  }

  [[nodiscard]] Band row(const document::Row& row) const {
    Band band;
    band.height = kRowPadding;
    if (row.kind == RowKind::kTotal) {
      rule(band, 0, type_.layout().frame_width, 100);
    }
    if (row.kind == RowKind::kNote) {
      note(band, row.cells.empty() ? std::string() : row.cells.front().text);
    } else {
      cells(band, row);
    }
    for (const std::string& detail : row.details) {
      const Mpt x = kCellPadding + kDetailIndent;
      type_.add_lines(band, type_.lines(detail, type_.width() - x - kCellPadding, plain_style()), x,
                      plain_style());
    }
    finish(band);
    if (!row.anchor.empty()) band.anchors = {row.anchor};
    band.entry = row.entry;
    return band;
  }

  [[nodiscard]] Band note_row(const std::string& text) const {
    Band band;
    band.height = kRowPadding;
    note(band, text);
    finish(band);
    return band;
  }

 private:
  [[nodiscard]] TextStyle plain_style() const { return {size_, Weight::kNormal}; }
  [[nodiscard]] TextStyle strong_style() const { return {size_, Weight::kStrong}; }

  void rule(Band& band, Mpt y, Mpt thickness, int grey_percent) const {
    band.draws.emplace_back(LineDraw{0, y, type_.width(), y, thickness, grey_percent});
  }

  void finish(Band& band) const {
    band.height += kRowPadding;
    rule(band, band.height, type_.layout().rule_width, type_.layout().rule_grey_percent);
  }

  void note(Band& band, const std::string& text) const {
    const Mpt width = type_.width() - 2 * kCellPadding;
    type_.add_lines(band, type_.lines(text, width, plain_style()), kCellPadding, plain_style());
  }

  void cells(Band& band, const document::Row& row) const {
    Mpt bottom = band.height + type_.line_height(size_);
    for (std::size_t i = 0; i < places_.size(); ++i) {
      const document::Cell& cell = row.cells[i];
      const bool strong =
          row.kind == RowKind::kTotal || cell.emphasis == document::Emphasis::kStrong;
      const TextStyle style = strong ? strong_style() : plain_style();
      Mpt top = band.height;
      for (const std::string& line : type_.lines(cell.text, places_[i].width, style)) {
        const TextDraw text = type_.line(line, cell_x(line, i), top, style);
        band.draws.emplace_back(text);
        if (!cell.link.empty()) band.draws.emplace_back(type_.link_under(text, cell.link));
        top += type_.line_height(size_);
      }
      bottom = std::max(bottom, top);
    }
    band.height = bottom;
  }

  /// At the edge the column stands on.
  [[nodiscard]] Mpt edge_x(const std::string& line, std::size_t column) const {
    const ColumnPlace& place = places_[column];
    return table_.columns[column].align == Align::kText
               ? place.left
               : place.left + place.width - type_.width_of(line, size_);
  }

  [[nodiscard]] Mpt cell_x(const std::string& line, std::size_t column) const {
    const auto mark =
        table_.columns[column].align == Align::kDecimal ? decimal_mark(line) : std::nullopt;
    if (!mark) {
      return edge_x(line, column);
    }
    const ColumnPlace& place = places_[column];
    return place.left + place.width - place.fraction -
           type_.width_of(std::string_view(line).substr(0, *mark), size_);
  }

  const document::Table& table_;
  std::vector<ColumnPlace> places_;
  const Typesetter& type_;
  Mpt size_;
};

/// Row i keeps with the next when that is a total, or the one after that is; and the first with
/// the second, so that no table begins with a single row at the foot of a page.
bool keeps_with_next(const std::vector<document::Row>& rows, std::size_t i) {
  const auto is_total = [&](std::size_t at) {
    return at < rows.size() && rows[at].kind == RowKind::kTotal;
  };
  const bool begins = i == 0 && rows.size() > 1;
  return begins || is_total(i + 1) || is_total(i + 2);
}

void add_caption(Flow& flow, const std::string& caption, const Typesetter& type) {
  const TextStyle style = {type.layout().body_size, Weight::kStrong};
  Band band;
  type.add_lines(band, type.lines(caption, type.width(), style), 0, style);
  band.height += style.size / 4;
  band.keep = Keep::kWithNext;
  flow.bands.push_back(std::move(band));
}

}  // namespace

base::Status<> add_table(Flow& flow, const document::Table& raw_table, const Typesetter& type) {
  const document::Table table = printable_table(raw_table, type);
  auto places = place_columns(table, type.width(), type.layout().table_size, type.font());
  if (!places) {
    return base::Error{base::ErrorCode::kInternal,
                       "table \"" + table.caption + "\" is too wide for the page"};
  }
  const std::size_t first_band = flow.bands.size();
  const TableSetter setter(table, *std::move(places), type);
  if (!table.caption.empty()) {
    add_caption(flow, table.caption, type);
  }
  flow.table_heads.push_back(setter.head());
  flow.bands.push_back(setter.head());
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    Band band = setter.row(table.rows[i]);
    band.table = flow.table_heads.size() - 1;
    band.keep = keeps_with_next(table.rows, i) ? Keep::kWithNext : Keep::kFree;
    flow.bands.push_back(std::move(band));
  }
  if (table.rows.empty()) {
    flow.bands.push_back(setter.note_row(table.when_empty));
  }
  flow.bands[first_band].space_before = type.layout().body_size;
  flow.bands.back().space_after = type.layout().body_size;
  return base::Done{};
}

}  // namespace benchwarden::print
