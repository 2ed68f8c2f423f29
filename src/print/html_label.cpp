#include "print/html_label.h"

#include <vector>

#include "document/qr_code.h"
#include "print/html_text.h"
#include "print/svg_area.h"
#include "print/symbol_draws.h"

namespace benchwarden::print {
namespace {

std::string picture(const std::string& name, Mpt side, const std::string& content) {
  const std::string length = std::to_string(side);
  return "<svg role=\"img\" aria-label=\"" + html_text(name) + "\" viewBox=\"0 0 " + length + " " +
         length + "\">\n" + content + "</svg>\n";
}

std::string pictogram_svg(const document::LabelPictogram& pictogram) {
  std::string content;
  for (const Draw& draw : pictogram_draws(pictogram.symbol, {}, document::kPictogramSide)) {
    content += svg_area(std::get<AreaDraw>(draw));
  }
  return picture(pictogram.name, document::kPictogramDiagonal, content);
}

std::string code_svg(const std::string& code) {
  const auto rows = document::qr_code(code, document::QrLevel::kQ);
  if (!rows) return "";
  const Mpt side = static_cast<Mpt>(rows->size()) + 2 * kQuietModules;
  return picture(code, side, svg_area(qr_draw(*rows, {kQuietModules, kQuietModules}, 1)));
}

std::string paragraphs(const std::vector<std::string>& texts) {
  std::string html;
  for (const std::string& text : texts) html += html_element("p", text) + "\n";
  return html;
}

std::string said(const std::string& text, std::string_view attributes = "") {
  return text.empty() ? "" : html_element("p", text, attributes) + "\n";
}

std::string facts(const std::vector<document::LabelFact>& facts) {
  if (facts.empty()) return "";
  std::string html = "<dl>\n";
  for (const document::LabelFact& fact : facts) {
    html += html_element("dt", fact.label) +
            html_element("dd", fact.value.empty() ? fact.by_hand : fact.value) + "\n";
  }
  return html + "</dl>\n";
}

}  // namespace

std::string html_label(const document::Label& label) {
  std::string html = "<section class=\"label\">\n" + html_element("h2", label.title) + "\n";
  html += said(label.words, "class=\"words\"") + said(label.name, "class=\"name\"");
  std::string pictures;
  for (const document::LabelPictogram& one : label.pictograms) pictures += pictogram_svg(one);
  if (!pictures.empty()) html += "<div>\n" + pictures + "</div>\n";
  html += facts(label.facts) + said(label.pictograms_source);
  for (const std::string& text : label.warnings) {
    html += "<p>" + html_element("strong", text) + "</p>\n";
  }
  html += paragraphs(label.remarks) + paragraphs(label.if_room);
  if (!label.left_out.empty()) {
    html += said(label.left_out_says) + "<ul>\n";
    for (const std::string& text : label.left_out) html += html_element("li", text) + "\n";
    html += "</ul>\n";
  }
  html += "<div>\n" + code_svg(label.code) + "</div>\n";
  return html + said(label.id, "class=\"name\"") + paragraphs(label.foot) + "</section>\n";
}

}  // namespace benchwarden::print
