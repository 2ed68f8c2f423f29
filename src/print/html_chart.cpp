#include "print/html_chart.h"

#include "document/bar_chart_layout.h"
#include "document/chart_layout.h"
#include "document/qr_code.h"
#include "print/html_text.h"
#include "print/svg_parts.h"

namespace benchwarden::print {
namespace {

std::string html_drawing(const std::string& caption, const document::ChartLayout& layout) {
  if (layout.height == 0) return "";
  return "<figure>\n" + html_element("figcaption", caption) + "\n<svg role=\"img\" aria-label=\"" +
         html_text(caption) + "\" viewBox=\"0 0 " + std::to_string(document::kChartWidth) + " " +
         std::to_string(layout.height) + "\"" + svg_attribute("font-size", kSvgTextSize) + ">\n" +
         svg_chart(layout) + "</svg>\n</figure>\n";
}

}  // namespace

std::string html_chart(const document::Chart& chart) {
  return html_drawing(chart.caption, document::lay_out_chart(chart));
}

std::string html_bar_chart(const document::BarChart& chart) {
  return html_drawing(chart.caption, document::lay_out_bar_chart(chart));
}

std::string html_scan_code(const document::ScanCode& code) {
  std::string html = "<figure class=\"code\">\n";
  if (const auto rows = document::qr_code(code.content)) {
    constexpr int kQuietZone = 4;        // modules, by ISO/IEC 18004
    constexpr int kPixelsForModule = 4;  // 3 pt on paper
    const auto side = static_cast<int>(rows->size()) + 2 * kQuietZone;
    const std::string pixels = std::to_string(side * kPixelsForModule);
    const std::string units = std::to_string(side);
    html += "<svg role=\"img\" aria-label=\"" + html_text(code.content) + "\" width=\"" + pixels +
            "\" height=\"" + pixels + "\" viewBox=\"-4 -4 " + units + " " + units + "\">\n" +
            svg_modules(*rows) + "</svg>\n";
  }
  for (const std::string& line : code.lines) html += html_element("p", line) + "\n";
  return html + "</figure>\n";
}

}  // namespace benchwarden::print
