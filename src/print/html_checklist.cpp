#include "print/html_checklist.h"

#include "print/html_text.h"

namespace benchwarden::print {
namespace {

std::string item_row(const document::ChecklistItem& item) {
  std::string html = "<tr>" + html_element("th", item.text, "scope=\"row\"") + "<td>";
  for (const std::string& answer : item.answers) {
    html += html_element("span", "\u2610 " + answer, "class=\"answer\"") + " ";
  }
  if (!item.write.empty()) {
    html += "<span class=\"answer\"><span class=\"write\"></span> " + html_lines(item.write) +
            "</span>";
  }
  return html + "</td></tr>\n";
}

}  // namespace

std::string html_checklist(const document::Checklist& list) {
  if (list.items.empty()) return "";
  std::string html = "<table class=\"check\">\n";
  if (!list.caption.empty()) html += html_element("caption", list.caption) + "\n";
  html += "<tbody>\n";
  for (const document::ChecklistItem& item : list.items) html += item_row(item);
  return html + "</tbody>\n</table>\n";
}

}  // namespace benchwarden::print
