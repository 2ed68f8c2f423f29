#include "print/svg.h"

#include <variant>

#include "base/text.h"
#include "document/bar_chart_layout.h"
#include "document/qr_code.h"
#include "document/short_lines.h"
#include "print/html_text.h"
#include "print/svg_parts.h"

namespace benchwarden::print {
namespace {

constexpr std::int64_t kSvgPadding = 200;        // around everything, and between drawings
constexpr std::int64_t kSvgLine = 260;           // from one line of text to the next
constexpr std::size_t kSvgLineLength = 80;       // signs
constexpr std::int64_t kSvgModule = 55;          // more than 2 pt at the width below
constexpr std::int64_t kUnitsOfMillimetre = 57;  // so that a chart is as wide as on paper

/// Puts drawing below drawing; std::visit calls it with each block.
class DrawingStack {
 public:
  void operator()(const document::Chart& chart) {
    add_drawing(chart.caption, document::lay_out_chart(chart));
  }
  void operator()(const document::BarChart& chart) {
    add_drawing(chart.caption, document::lay_out_bar_chart(chart));
  }
  void operator()(const document::ScanCode& code) {
    const auto rows = document::qr_code(code.content);
    if (!rows) return;
    const auto side = (static_cast<std::int64_t>(rows->size()) + 4) * kSvgModule;
    body_ += "<g transform=\"translate(" + std::to_string(4 * kSvgModule) + " " +
             std::to_string(height_ + 4 * kSvgModule) + ") scale(" + std::to_string(kSvgModule) +
             ")\">\n" + svg_modules(*rows) + "</g>\n";
    height_ += side + 4 * kSvgModule;
    for (const std::string& line : code.lines) add_lines(line, "");
    height_ += kSvgPadding;
  }
  template <class Other>
  void operator()(const Other&) {}

  [[nodiscard]] const std::string& body() const { return body_; }
  [[nodiscard]] std::int64_t height() const { return height_; }

 private:
  void add_lines(const std::string& text, const std::string& attributes) {
    for (const std::string& line : document::short_lines(text, kSvgLineLength)) {
      body_ += svg_text(0, height_ + kSvgLine * 3 / 4, line, attributes);
      height_ += kSvgLine;
    }
  }

  void add_drawing(const std::string& caption, const document::ChartLayout& layout) {
    if (layout.height == 0) return;
    add_lines(caption, " font-weight=\"bold\"");
    body_ += "<g transform=\"translate(0 " + std::to_string(height_) + ")\">\n" +
             svg_chart(layout) + "</g>\n";
    height_ += layout.height + kSvgPadding;
  }

  std::string body_;
  std::int64_t height_ = 0;
};

std::string chart_millimetres(std::int64_t units) {
  return std::to_string(units / kUnitsOfMillimetre) + "mm";
}

}  // namespace

std::string to_svg(const document::Document& document) {
  DrawingStack stack;
  for (const document::Section& section : document.sections) {
    for (const document::Block& block : section.blocks) std::visit(stack, block);
  }
  if (stack.body().empty()) return "";
  const std::string language = html_text(document.language);
  const std::int64_t width = document::kChartWidth + 2 * kSvgPadding;
  const std::int64_t height = stack.height() + kSvgPadding;
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" xml:lang=\"" + language +
                    "\" lang=\"" + language + "\" role=\"img\" width=\"" +
                    chart_millimetres(width) + "\" height=\"" + chart_millimetres(height) +
                    "\" viewBox=\"" + std::to_string(-kSvgPadding) + " " +
                    std::to_string(-kSvgPadding) + " " + std::to_string(width) + " " +
                    std::to_string(height) + "\"" + svg_attribute("font-size", kSvgTextSize) +
                    " font-family=\"'DejaVu Sans', Verdana, sans-serif\">\n";
  svg += "<title>" + html_text(document.title) + "</title>\n<desc>" +
         html_text(base::join(document.subject_lines, "; ")) + "</desc>\n";
  svg += "<rect" + svg_attribute("x", -kSvgPadding) + svg_attribute("y", -kSvgPadding) +
         svg_attribute("width", width) + svg_attribute("height", height) + " fill=\"#ffffff\"/>\n";
  return svg + stack.body() + "</svg>\n";
}

}  // namespace benchwarden::print
