#include "print/html.h"

#include <variant>
#include <vector>

#include "base/base64.h"
#include "base/sha256.h"
#include "document/contents.h"
#include "document/headings.h"
#include "print/html_chart.h"
#include "print/html_checklist.h"
#include "print/html_contents.h"
#include "print/html_label.h"
#include "print/html_links.h"
#include "print/html_style.h"
#include "print/html_table.h"
#include "print/html_text.h"

namespace benchwarden::print {
namespace {

/// Turns block after block into HTML; std::visit calls it with each.
class BlockWriter {
 public:
  explicit BlockWriter(const document::Document& document)
      : headings_(document::ordered_headings(document)),
        index_(document::find_entry_index(document)),
        links_(document) {}

  std::string operator()(const document::Heading& heading) {
    const document::HeadingPlace& place = headings_.at(next_heading_++);
    const std::string tag = "h" + std::to_string(place.level + 1);  // the title is h1
    const bool led_to = listed_ || !heading.anchor.empty();
    return html_element(tag, heading.text, led_to ? "id=\"" + html_text(place.anchor) + "\"" : "") +
           "\n";
  }

  std::string operator()(const document::Paragraph& paragraph) const {
    switch (paragraph.style) {
      case document::ParagraphStyle::kNormal:
        return html_element("p", paragraph.text) + "\n";
      case document::ParagraphStyle::kSmall:
        return html_element("p", paragraph.text, "class=\"small\"") + "\n";
      case document::ParagraphStyle::kCaution:
        return html_element("p", paragraph.text, "class=\"caution\"") + "\n";
    }
    return "";
  }

  std::string operator()(const document::KeyFigures& figures) const {
    std::string html = "<dl class=\"figures\">\n";
    for (const document::KeyFigure& figure : figures.figures) {
      html += "<div>" + html_element("dt", figure.label) + "<dd>" +
              links_.linked(html_element("strong", figure.value), figure.link) + " " +
              html_text(figure.unit) + "</dd></div>\n";
    }
    return figures.figures.empty() ? "" : html + "</dl>\n";
  }

  std::string operator()(const document::Table& table) const { return html_table(table, links_); }

  std::string operator()(const document::Chart& chart) const { return html_chart(chart); }
  std::string operator()(const document::BarChart& chart) const { return html_bar_chart(chart); }
  std::string operator()(const document::ScanCode& code) const { return html_scan_code(code); }
  std::string operator()(const document::Checklist& list) const { return html_checklist(list); }

  std::string operator()(const document::Contents& contents) {
    listed_ = true;  // the headings from here on
    return html_contents(contents.title,
                         document::contents_lines(contents, headings_, next_heading_, index_));
  }
  std::string operator()(const document::EntryIndex& index) const {
    return html_entry_index(index, links_.entries());
  }

  std::string operator()(const document::Label& label) const { return html_label(label); }

  std::string operator()(const document::NoteBox& box) const {
    std::string html = "<div class=\"box\" role=\"note\">\n" + box_title(box.title);
    html += box.lines.empty() ? html_element("p", box.when_empty) + "\n" : items(box.lines, "");
    return html + "</div>\n";
  }

  std::string operator()(const document::CautionBox& box) const {
    std::string html = "<div class=\"box caution\" role=\"note\">\n" + box_title(box.title);
    for (const std::string& sentence : box.sentences) {
      html += html_element("p", sentence) + "\n";
    }
    for (const std::string& source : box.sources) {
      html += html_element("p", source, "class=\"small\"") + "\n";
    }
    return html + "</div>\n";
  }

  std::string operator()(const document::SignatureLine& line) const {
    return line.labels.empty() ? "" : items(line.labels, " class=\"sign\"");
  }

 private:
  static std::string box_title(const std::string& title) {
    return "<p>" + html_element("strong", title) + "</p>\n";
  }

  static std::string items(const std::vector<std::string>& texts, const std::string& classes) {
    std::string html = "<ul" + classes + ">\n";
    for (const std::string& text : texts) {
      html += html_element("li", text) + "\n";
    }
    return html + "</ul>\n";
  }

  std::vector<document::HeadingPlace> headings_;
  std::size_t next_heading_ = 0;
  bool listed_ = false;  ///< a list of contents leads to each heading
  const document::EntryIndex* index_;
  HtmlLinks links_;
};

std::string page_head(const document::Document& document) {
  std::string html = "<!DOCTYPE html>\n<html lang=\"" + html_text(document.language) +
                     "\">\n<head>\n<meta charset=\"utf-8\">\n"
                     "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
  html += html_element("title", document.title) + "\n<style>";
  html += kHtmlStyle;
  return html + "</style>\n</head>\n<body>\n";
}

std::string title_block(const document::Document& document) {
  std::string html = "<header>\n" + html_element("h1", document.title) + "\n";
  for (const std::string& line : document.subject_lines) {
    html += html_element("p", line) + "\n";
  }
  return html + "</header>\n";
}

std::string page_foot(const document::Document& document) {
  const document::Furniture& words = document.furniture;
  std::string html = "<footer>\n";
  for (const std::string& text : {words.site, words.period, words.made_at, words.book_size,
                                  words.tree_head, words.figures, document.report_id}) {
    html += text.empty() ? "" : html_element("div", text) + "\n";
  }
  return html + "</footer>\n";
}

}  // namespace

std::string to_html(const document::Document& document) {
  std::string html = page_head(document) + "<main>\n";
  if (document.standing == document::Standing::kNotForIssue) {
    html += html_element("p", document.furniture.not_for_issue, "class=\"mark\"") + "\n";
  }
  html += title_block(document);
  BlockWriter writer(document);
  for (const document::Section& section : document.sections) {
    const bool new_page = section.page_break == document::PageBreak::kBefore;
    html += new_page ? "<div class=\"new-page\">\n" : "<div>\n";
    for (const document::Block& block : section.blocks) {
      html += std::visit(writer, block);
    }
    html += "</div>\n";
  }
  return html + "</main>\n" + page_foot(document) + "</body>\n</html>\n";
}

std::string html_style_source() {
  const base::Sha256Digest digest = base::sha256(kHtmlStyle);
  return "'sha256-" + base::to_base64(base::as_bytes(digest)) + "'";
}

}  // namespace benchwarden::print
