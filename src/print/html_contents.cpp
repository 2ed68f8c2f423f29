#include "print/html_contents.h"

#include "base/text.h"
#include "print/html_text.h"

namespace benchwarden::print {
namespace {

std::string link(const std::string& text, const std::string& anchor) {
  return html_element("a", text, "href=\"#" + html_text(anchor) + "\"");
}

}  // namespace

std::string html_contents(const std::string& title,
                          const std::vector<document::ContentsLine>& lines) {
  if (lines.empty()) return "";
  std::string html = "<nav aria-label=\"" + html_text(title) + "\">\n" + html_element("h2", title) +
                     "\n<ul class=\"contents\">\n";
  for (const document::ContentsLine& line : lines) {
    html += "<li class=\"level-" + std::to_string(line.level) + "\">" +
            link(line.text, line.anchor) + "</li>\n";
  }
  return html + "</ul>\n</nav>\n";
}

std::string html_entry_index(const document::EntryIndex& index,
                             const std::map<std::uint64_t, std::string>& entries) {
  const std::string id = "id=\"" + std::string(document::kEntryIndexAnchor) + "\"";
  std::string html = html_element("h2", index.title, id) + "\n";
  if (entries.empty()) return html + html_element("p", index.when_empty) + "\n";
  html += "<ul class=\"index\">\n";
  for (const auto& [entry, anchor] : entries) {
    html += "<li>" + link(base::grouped_digits(std::to_string(entry)), anchor) + "</li>\n";
  }
  return html + "</ul>\n";
}

}  // namespace benchwarden::print
