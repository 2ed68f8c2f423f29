#include "print/csv.h"

#include <algorithm>
#include <cassert>
#include <string_view>
#include <variant>

#include "print/csv_field.h"

namespace benchwarden::print {
namespace {

const std::string& first_given(const std::string& wanted, const std::string& fallback) {
  return wanted.empty() ? fallback : wanted;
}

/// Nothing but what holds a line open to be written on by hand.
bool is_blank(std::string_view text) {
  constexpr std::string_view kNoBreakSpace = "\u00A0";
  while (!text.empty()) {
    if (text.starts_with(kNoBreakSpace)) {
      text.remove_prefix(kNoBreakSpace.size());
    } else if (text.front() == ' ') {
      text.remove_prefix(1);
    } else {
      return false;
    }
  }
  return true;
}

/// A row to be written on by hand, with nothing in it yet.
bool is_blank(const document::Row& row) {
  const bool cells = std::all_of(row.cells.begin(), row.cells.end(), [](const auto& cell) {
    return cell.raw.value_or(cell.text).empty();
  });
  return cells && std::all_of(row.details.begin(), row.details.end(),
                              [](const std::string& detail) { return is_blank(detail); });
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
      if (is_blank(row)) continue;
      const std::string row_name = first_given(row.name, std::to_string(i + 1));
      if (row.kind == document::RowKind::kNote) {
        line(name, row_name, "note", row.cells.empty() ? "" : row.cells.front().text, "");
      } else {
        cells(name, row_name, table, row);
      }
      for (const std::string& detail : row.details) {
        if (!is_blank(detail)) line(name, row_name, "detail", detail, "");
      }
    }
  }

  void operator()(const document::Checklist& list) {
    if (list.name.empty()) return;
    for (std::size_t i = 0; i < list.items.size(); ++i) {
      const document::ChecklistItem& item = list.items[i];
      line(list.name, first_given(list.about, std::to_string(i + 1)), item.name, item.text, "");
    }
  }

  void operator()(const document::CautionBox& box) {
    if (box.name.empty()) return;
    for (std::size_t i = 0; i < box.sentences.size(); ++i) {
      line(box.name, std::to_string(i + 1), "sentence", box.sentences[i], "");
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
