#include "print/html_chart.h"

#include <string_view>

#include "document/chart_layout.h"
#include "print/html_text.h"

namespace benchwarden::print {
namespace {

constexpr std::string_view kTextSize = "165";  // of ten thousand of the width

std::string attribute(std::string_view name, std::int64_t value) {
  return " " + std::string(name) + "=\"" + std::to_string(value) + "\"";
}

/// Black to white in the two digits of a colour.
std::string grey(int percent) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  const auto light = static_cast<std::size_t>(255 * (100 - percent) / 100);
  const std::string two{kDigits[light / 16], kDigits[light % 16]};
  return "#" + two + two + two;
}

std::string line(const document::ChartStroke& stroke) {
  return "<line" + attribute("x1", stroke.x1) + attribute("y1", stroke.y1) +
         attribute("x2", stroke.x2) + attribute("y2", stroke.y2) +
         attribute("stroke-width", stroke.thickness) + " stroke=\"" + grey(stroke.grey_percent) +
         "\"/>\n";
}

std::string text(const document::ChartText& text) {
  std::string attributes = attribute("x", text.x).substr(1) + attribute("y", text.y);
  if (text.anchor == document::Anchor::kMiddle) attributes += " text-anchor=\"middle\"";
  if (text.anchor == document::Anchor::kEnd) attributes += " text-anchor=\"end\"";
  return html_element("text", text.text, attributes) + "\n";
}

}  // namespace

std::string html_chart(const document::Chart& chart) {
  const document::ChartLayout layout = document::lay_out_chart(chart);
  if (layout.height == 0) return "";
  std::string html = "<figure>\n" + html_element("figcaption", chart.caption) +
                     "\n<svg role=\"img\" aria-label=\"" + html_text(chart.caption) +
                     "\" viewBox=\"0 0 " + std::to_string(document::kChartWidth) + " " +
                     std::to_string(layout.height) + "\" font-size=\"" + std::string(kTextSize) +
                     "\">\n";
  for (const document::ChartStroke& stroke : layout.strokes) html += line(stroke);
  for (const document::ChartText& words : layout.texts) html += text(words);
  return html + "</svg>\n</figure>\n";
}

}  // namespace benchwarden::print
