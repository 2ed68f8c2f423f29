#include "print/html_links.h"

#include <variant>

#include "document/contents.h"
#include "print/html_text.h"

namespace benchwarden::print {

HtmlLinks::HtmlLinks(const document::Document& document) {
  const bool indexed = document::find_entry_index(document) != nullptr;
  for (const document::Section& section : document.sections) {
    for (const document::Block& block : section.blocks) {
      if (const auto* heading = std::get_if<document::Heading>(&block)) {
        if (!heading->anchor.empty()) anchors_.insert(heading->anchor);
      } else if (const auto* table = std::get_if<document::Table>(&block)) {
        for (const document::Row& row : table->rows) find_row(row, indexed);
      }
    }
  }
}

void HtmlLinks::find_row(const document::Row& row, bool indexed) {
  if (!row.anchor.empty()) anchors_.insert(row.anchor);
  if (!indexed || row.entry == 0 || entries_.contains(row.entry)) return;
  entries_[row.entry] = row.anchor.empty() ? "entry_" + std::to_string(row.entry) : row.anchor;
  first_rows_.insert(&row);
}

std::string HtmlLinks::linked(std::string html, const std::string& anchor) const {
  if (!anchors_.contains(anchor)) return html;
  return "<a href=\"#" + html_text(anchor) + "\">" + html + "</a>";
}

std::string HtmlLinks::id_of(const document::Row& row) const {
  if (row.anchor.empty() && !first_rows_.contains(&row)) return "";
  return " id=\"" + html_text(row.anchor.empty() ? entries_.at(row.entry) : row.anchor) + "\"";
}

}  // namespace benchwarden::print
