#include "print/svg_parts.h"

#include <algorithm>

#include "print/html_text.h"

namespace benchwarden::print {
namespace {

/// Black to white in the two digits of a colour.
std::string grey(int percent) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  const auto light = static_cast<std::size_t>(255 * (100 - percent) / 100);
  const std::string two{kDigits[light / 16], kDigits[light % 16]};
  return "#" + two + two + two;
}

std::string line(const document::ChartStroke& stroke) {
  return "<line" + svg_attribute("x1", stroke.x1) + svg_attribute("y1", stroke.y1) +
         svg_attribute("x2", stroke.x2) + svg_attribute("y2", stroke.y2) +
         svg_attribute("stroke-width", stroke.thickness) + " stroke=\"" +
         grey(stroke.grey_percent) + "\"/>\n";
}

std::string text(const document::ChartText& text) {
  std::string attributes;
  if (text.anchor == document::Anchor::kMiddle) attributes += " text-anchor=\"middle\"";
  if (text.anchor == document::Anchor::kEnd) attributes += " text-anchor=\"end\"";
  if (text.reading == document::Reading::kUpwards) {
    attributes +=
        " transform=\"rotate(-90 " + std::to_string(text.x) + " " + std::to_string(text.y) + ")\"";
  }
  return svg_text(text.x, text.y, text.text, attributes);
}

}  // namespace

std::string svg_attribute(std::string_view name, std::int64_t value) {
  return " " + std::string(name) + "=\"" + std::to_string(value) + "\"";
}

std::string svg_text(std::int64_t x, std::int64_t y, std::string_view text,
                     std::string_view attributes) {
  return "<text" + svg_attribute("x", x) + svg_attribute("y", y) + std::string(attributes) + ">" +
         html_text(text) + "</text>\n";
}

std::string svg_chart(const document::ChartLayout& layout) {
  std::string svg;
  for (const document::ChartStroke& stroke : layout.strokes) svg += line(stroke);
  for (const document::ChartText& words : layout.texts) svg += text(words);
  return svg;
}

std::string svg_modules(const std::vector<std::string>& rows) {
  std::string path;
  for (std::size_t y = 0; y < rows.size(); ++y) {
    const std::string& row = rows[y];
    for (std::size_t first = row.find('1'); first != std::string::npos;) {
      const std::size_t end = std::min(row.find('0', first), row.size());
      const std::string width = std::to_string(end - first);
      path += "M" + std::to_string(first) + " " + std::to_string(y) + "h" + width + "v1h-" + width +
              "z";
      first = row.find('1', end);
    }
  }
  return "<path d=\"" + path + "\"/>\n";
}

}  // namespace benchwarden::print
