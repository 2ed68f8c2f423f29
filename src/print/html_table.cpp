#include "print/html_table.h"

#include <algorithm>
#include <cassert>
#include <optional>
#include <utility>
#include <vector>

#include "print/html_text.h"
#include "print/table_columns.h"
#include "print/utf8.h"

namespace benchwarden::print {
namespace {

using document::Align;
using document::RowKind;

constexpr std::size_t kPlacesMost = 3;  ///< the style has room for so many
constexpr std::size_t kShortText = 16;  ///< characters; a column of no longer texts does not wrap

/// Decimal places of a text with digits; nullopt for other text.
std::optional<std::size_t> places_of(const std::string& text) {
  const auto mark = decimal_mark(text);
  if (!mark) {
    return std::nullopt;
  }
  const std::size_t first = *mark + 1;
  if (*mark == text.size() || (text[*mark] != '.' && text[*mark] != ',')) {
    return 0;
  }
  const std::size_t end = std::min(text.find_first_not_of("0123456789", first), text.size());
  return end - first;
}

class TableWriter {
 public:
  TableWriter(const document::Table& table, const HtmlLinks& links)
      : table_(table),
        links_(links),
        places_(table.columns.size()),
        longest_(table.columns.size()) {
    for (const document::Row& row : table.rows) {
      if (row.kind == RowKind::kNote) {
        continue;
      }
      for (std::size_t i = 0; i < row.cells.size() && i < places_.size(); ++i) {
        places_[i] = std::max(places_[i], places_of(row.cells[i].text).value_or(0));
        longest_[i] = std::max(longest_[i], decode_utf8(row.cells[i].text).size());
      }
    }
  }

  std::string write() const {
    std::string html = "<table>\n";
    if (!table_.caption.empty()) {
      html += html_element("caption", table_.caption) + "\n";
    }
    html += head();
    const auto last_other =
        std::find_if(table_.rows.rbegin(), table_.rows.rend(),
                     [](const document::Row& row) { return row.kind != RowKind::kTotal; });
    const auto body_size = static_cast<std::size_t>(table_.rows.rend() - last_other);
    html += "<tbody>\n" + rows(0, body_size);
    if (table_.rows.empty()) {
      html += full_row(table_.when_empty, "");
    }
    html += "</tbody>\n";
    if (body_size < table_.rows.size()) {
      html += "<tfoot>\n" + rows(body_size, table_.rows.size()) + "</tfoot>\n";
    }
    return html + "</table>\n";
  }

 private:
  [[nodiscard]] std::string head() const {
    std::string html = "<thead>\n<tr>";
    for (const document::Column& column : table_.columns) {
      const std::string tag = column.heading.empty() ? "td" : "th";
      html += "<" + tag + (tag == "th" ? " scope=\"col\"" : "") +
              (column.align == Align::kText ? ">" : " class=\"n\">") + html_text(column.heading);
      if (!column.unit.empty()) {
        html += " " + html_element("span", column.unit, "class=\"unit\"");
      }
      html += "</" + tag + ">";
    }
    return html + "</tr>\n</thead>\n";
  }

  [[nodiscard]] std::string rows(std::size_t first, std::size_t end) const {
    std::string html;
    for (std::size_t i = first; i < end; ++i) {
      html += row(table_.rows[i]);
    }
    return html;
  }

  [[nodiscard]] std::string full_row(const std::string& text, const std::string& attributes) const {
    return "<tr" + attributes + ">" +
           html_element("td", text, "colspan=\"" + std::to_string(table_.columns.size()) + "\"") +
           "</tr>\n";
  }

  [[nodiscard]] std::string row(const document::Row& row) const {
    const bool led = !row.details.empty();
    const std::string id = links_.id_of(row);
    std::string html;
    if (row.kind == RowKind::kNote) {
      html = full_row(row.cells.empty() ? "" : row.cells.front().text,
                      id + (led ? " class=\"led\"" : ""));
    } else {
      assert(row.cells.size() == table_.columns.size());
      const bool total = row.kind == RowKind::kTotal;
      const char* classes = total && led ? " class=\"total led\""
                            : total      ? " class=\"total\""
                            : led        ? " class=\"led\""
                                         : "";
      html = "<tr" + id + classes + ">";
      for (std::size_t i = 0; i < row.cells.size(); ++i) {
        html += cell(row.cells[i], i);
      }
      html += "</tr>\n";
    }
    for (const std::string& detail : row.details) {
      const bool last = &detail == &row.details.back();
      html += full_row(detail, last ? " class=\"detail\"" : " class=\"detail led\"");
    }
    return html;
  }

  [[nodiscard]] std::string cell(const document::Cell& cell, std::size_t column) const {
    const bool heads_row = column == 0 && !cell.text.empty();
    const std::string tag = heads_row ? "th" : "td";
    std::string html = "<" + tag + (heads_row ? " scope=\"row\"" : "");
    if (table_.columns[column].align != Align::kText) {
      html += " class=\"n" + lack(cell.text, column) + "\"";
    } else if (longest_[column] <= kShortText) {
      html += " class=\"short\"";
    }
    const bool strong = cell.emphasis == document::Emphasis::kStrong;
    std::string text = strong ? html_element("strong", cell.text) : html_lines(cell.text);
    html += ">" + (cell.link.empty() ? std::move(text) : links_.linked(std::move(text), cell.link));
    return html + "</" + tag + ">";
  }

  /// Classes that make room for the decimal places this cell has fewer than its column.
  [[nodiscard]] std::string lack(const std::string& text, std::size_t column) const {
    const auto places = places_of(text);
    if (table_.columns[column].align != Align::kDecimal || !places || *places == places_[column]) {
      return "";
    }
    const std::size_t missing = std::min(places_[column] - *places, kPlacesMost);
    return (*places == 0 ? " whole lack-" : " lack-") + std::to_string(missing);
  }

  const document::Table& table_;
  const HtmlLinks& links_;
  std::vector<std::size_t> places_;   ///< decimal places of a column, the most of its cells
  std::vector<std::size_t> longest_;  ///< characters of a column's longest cell
};

}  // namespace

std::string html_table(const document::Table& table, const HtmlLinks& links) {
  return TableWriter(table, links).write();
}

}  // namespace benchwarden::print
