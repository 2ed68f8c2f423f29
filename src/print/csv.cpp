#include "print/csv.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <string_view>
#include <variant>

#include "print/utf8.h"

namespace benchwarden::print {
namespace {

/// Digits with an optional sign "-" and one point: what no spreadsheet runs.
bool is_plain_number(std::string_view text) {
  if (text.starts_with('-')) {
    text.remove_prefix(1);
  }
  const std::size_t point = text.find('.');
  const std::string_view whole = text.substr(0, point);
  const std::string_view places = point == std::string_view::npos ? "0" : text.substr(point + 1);
  const auto all_digits = [](std::string_view part) {
    return !part.empty() &&
           std::all_of(part.begin(), part.end(), [](char c) { return c >= '0' && c <= '9'; });
  };
  return all_digits(whole) && all_digits(places);
}

/// The ASCII starts of a formula and the full-width forms of them that some programs take too.
bool starts_formula(std::string_view text) {
  static constexpr std::array<std::string_view, 11> kStarts = {
      "=", "+", "-", "@", "\t", "\r", "\n", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"};
  return std::any_of(kStarts.begin(), kStarts.end(),
                     [&](std::string_view start) { return text.starts_with(start); });
}

/// Valid UTF-8 without controls but tab and line ends.
std::string clean_field(std::string_view text) {
  std::u32string codes = decode_utf8(text);
  for (char32_t& code : codes) {
    const bool kept = code == U'\t' || code == U'\n' || code == U'\r';
    const bool control = code < 0x20 || (code >= 0x7F && code < 0xA0);
    code = control && !kept ? kReplacement : code;
  }
  return encode_utf8(codes);
}

std::string field(std::string_view text) {
  std::string value = clean_field(text);
  if (starts_formula(value) && !is_plain_number(value)) {
    value.insert(0, 1, '\'');
  }
  if (value.find_first_of(",\"\r\n") == std::string::npos) {
    return value;
  }
  std::string quoted = "\"";
  for (const char c : value) {
    quoted += c == '"' ? "\"\"" : std::string(1, c);
  }
  return quoted + "\"";
}

const std::string& first_given(const std::string& wanted, const std::string& fallback) {
  return wanted.empty() ? fallback : wanted;
}

class CsvWriter {
 public:
  void operator()(const document::KeyFigures& figures) {
    for (const document::KeyFigure& figure : figures.figures) {
      line(figures.name, first_given(figure.name, figure.label), "value",
           first_given(figure.raw, figure.value), figure.unit);
    }
  }

  void operator()(const document::Table& table) {
    const std::string& name = first_given(table.name, table.caption);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      const document::Row& row = table.rows[i];
      const std::string row_name = first_given(row.name, std::to_string(i + 1));
      if (row.kind == document::RowKind::kNote) {
        line(name, row_name, "note", row.cells.empty() ? "" : row.cells.front().text, "");
      } else {
        cells(name, row_name, table, row);
      }
      for (const std::string& detail : row.details) {
        line(name, row_name, "detail", detail, "");
      }
    }
  }

  /// All other blocks hold no figures of their own.
  template <class Other>
  void operator()(const Other&) {}

  std::string take() { return std::move(csv_); }

 private:
  void cells(const std::string& name, const std::string& row_name, const document::Table& table,
             const document::Row& row) {
    assert(row.cells.size() == table.columns.size());
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      const document::Column& column = table.columns[i];
      line(name, row_name, first_given(column.name, column.heading),
           row.cells[i].raw.value_or(row.cells[i].text), column.unit);
    }
  }

  void line(std::string_view table, std::string_view row, std::string_view column,
            std::string_view value, std::string_view unit) {
    csv_ += field(table) + "," + field(row) + "," + field(column) + "," + field(value) + "," +
            field(unit) + "\r\n";
  }

  std::string csv_ = "table,row,column,value,unit\r\n";
};

}  // namespace

std::string to_csv(const document::Document& document) {
  CsvWriter writer;
  for (const document::Section& section : document.sections) {
    for (const document::Block& block : section.blocks) {
      std::visit(writer, block);
    }
  }
  return writer.take();
}

}  // namespace benchwarden::print
