#include "print/csv.h"

#include <cassert>
#include <string_view>
#include <variant>

#include "print/csv_field.h"

namespace benchwarden::print {
namespace {

const std::string& first_given(const std::string& wanted, const std::string& fallback) {
  return wanted.empty() ? fallback : wanted;
}

class CsvWriter {
 public:
  void operator()(const document::KeyFigures& figures) {
    for (const document::KeyFigure& figure : figures.figures) {
      line(figures.name, first_given(figure.name, figure.label), "value",
           figure.raw.value_or(figure.value), figure.unit);
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

  void operator()(const document::Label& label) {
    const auto say = [&](std::string_view what, std::string_view value) {
      if (!value.empty()) line("label", label.code, what, value, "");
    };
    const auto say_all = [&](std::string_view what, const std::vector<std::string>& values) {
      for (const std::string& value : values) say(what, value);
    };
    say("words", label.words);
    say("name", label.name);
    for (const document::LabelPictogram& one : label.pictograms) say("pictogram", one.symbol);
    for (const document::LabelFact& fact : label.facts) {
      line("label", label.code, first_given(fact.name, fact.label),
           first_given(fact.raw, fact.value), "");
    }
    say("pictograms_source", label.pictograms_source);
    say_all("warning", label.warnings);
    say_all("remark", label.remarks);
    say_all("remark", label.if_room);
    say_all("left_out", label.left_out);
    say("id", label.id);
    say_all("foot", label.foot);
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
    csv_ += csv_line({table, row, column, value, unit});
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
