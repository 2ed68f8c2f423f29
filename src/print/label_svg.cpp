#include "print/label_svg.h"

#include <algorithm>
#include <string_view>
#include <variant>

#include "print/html_text.h"
#include "print/label_pages.h"
#include "print/svg_area.h"
#include "print/svg_parts.h"

namespace benchwarden::print {
namespace {

std::string rectangle(Mpt x, Mpt y, Mpt width, Mpt height, std::string_view fill) {
  return "<rect" + svg_attribute("x", x) + svg_attribute("y", y) + svg_attribute("width", width) +
         svg_attribute("height", height) + " fill=\"" + std::string(fill) + "\"/>\n";
}

/// Turns draw after draw into SVG; std::visit calls it with each.
class DrawWriter {
 public:
  DrawWriter(const FontMetrics& font, int bold_percent)
      : font_(font), bold_percent_(bold_percent) {}

  /// The width is the one it was laid out with, whatever font the viewer has.
  std::string operator()(const TextDraw& text) const {
    std::string attributes = svg_attribute("x", text.x).substr(1) + svg_attribute("y", text.y) +
                             svg_attribute("font-size", text.size) +
                             svg_attribute("textLength", font_.width(text.text, text.size)) +
                             " lengthAdjust=\"spacingAndGlyphs\"";
    if (text.weight == Weight::kStrong) {
      attributes +=
          " stroke=\"#000\"" + svg_attribute("stroke-width", text.size * bold_percent_ / 100);
    }
    if (text.turn == Turn::kRight) {
      attributes +=
          " transform=\"rotate(90 " + std::to_string(text.x) + " " + std::to_string(text.y) + ")\"";
    }
    return text.text.empty() ? "" : html_element("text", text.text, attributes) + "\n";
  }

  /// Labels hold black areas and lines alone.
  std::string operator()(const FillDraw& fill) const {
    return rectangle(fill.x, fill.y, fill.width, fill.height, "#000");
  }

  std::string operator()(const LineDraw& line) const {
    return "<line" + svg_attribute("x1", line.x1) + svg_attribute("y1", line.y1) +
           svg_attribute("x2", line.x2) + svg_attribute("y2", line.y2) +
           svg_attribute("stroke-width", line.thickness) + " stroke=\"#000\"/>\n";
  }

  std::string operator()(const AreaDraw& area) const { return svg_area(area); }

  /// Labels lead nowhere and name no page.
  std::string operator()(const LinkDraw&) const { return ""; }
  std::string operator()(const PageNumberDraw&) const { return ""; }

 private:
  const FontMetrics& font_;
  int bold_percent_;
};

/// Micrometres for a reader, as millimetres with three places.
std::string drawn_size(Mpt length) {
  const Mpt micrometres = (length * 2540 + 3600) / 7200;
  std::string places = std::to_string(1000 + micrometres % 1000);
  return std::to_string(micrometres / 1000) + "." + places.substr(1) + "mm";
}

}  // namespace

base::Result<std::string> labels_to_svg(const document::Document& document,
                                        const PdfOptions& options) {
  const auto font = FontMetrics::read(options.font_bytes);
  if (!font) return base::Error{base::ErrorCode::kInternal, font.error().detail};
  const auto pages = label_pages(document, options.paper, options.layout, *font);
  if (!pages) return pages.error();
  const PaperSize& paper = size_of(options.paper);
  const DrawWriter writer(*font, options.layout.bold_percent);
  std::string content;
  Mpt top = 0;
  for (const Page& page : *pages) {
    const Mpt height = page.paper_height == 0 ? paper.height : page.paper_height;
    content += "<g transform=\"translate(0 " + std::to_string(top) + ")\">\n" +
               rectangle(0, 0, paper.width, height, "#fff");
    for (const Draw& draw : page.draws) content += std::visit(writer, draw);
    content += "</g>\n";
    top += height;
  }
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" "
         "xml:lang=\"" +
         html_text(document.language) + "\" width=\"" + drawn_size(paper.width) + "\" height=\"" +
         drawn_size(top) + "\" viewBox=\"0 0 " + std::to_string(paper.width) + " " +
         std::to_string(top) + "\" font-family=\"DejaVu Sans, Verdana, sans-serif\">\n" +
         html_element("title", document.title) + "\n" + content + "</svg>\n";
}

}  // namespace benchwarden::print
