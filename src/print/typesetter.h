#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "print/band.h"
#include "print/font_metrics.h"
#include "print/layout.h"

namespace benchwarden::print {

struct TextStyle {
  Mpt size = 0;
  Weight weight = Weight::kNormal;
};

/// Turns text into lines and draws with the measures of one layout and one font, both of which
/// must outlive it.
class Typesetter {
 public:
  Typesetter(const Layout& layout, const FontMetrics& font, Mpt width)
      : layout_(layout), font_(font), width_(width) {}

  [[nodiscard]] const Layout& layout() const { return layout_; }
  [[nodiscard]] const FontMetrics& font() const { return font_; }
  [[nodiscard]] Mpt width() const { return width_; }  ///< of the text area

  [[nodiscard]] Mpt line_height(Mpt size) const { return size * layout_.leading_percent / 100; }
  /// Any text, made printable and wrapped.
  [[nodiscard]] std::vector<std::string> lines(std::string_view text, Mpt width,
                                               const TextStyle& style) const;
  [[nodiscard]] std::string printable(std::string_view text) const;
  /// Of printable text.
  [[nodiscard]] Mpt width_of(std::string_view text, Mpt size) const;
  /// One line whose line box begins at `top`.
  [[nodiscard]] TextDraw line(std::string text, Mpt x, Mpt top, const TextStyle& style) const;
  /// The area of a line of text, as a link.
  [[nodiscard]] LinkDraw link_under(const TextDraw& text, std::string anchor) const;
  /// Lines one below the other; `band.height` grows by them.
  void add_lines(Band& band, const std::vector<std::string>& lines, Mpt x,
                 const TextStyle& style) const;
  /// One band per line; neither the first nor the last line is left alone on a page.
  [[nodiscard]] std::vector<Band> line_bands(const std::vector<std::string>& lines, Mpt x,
                                             const TextStyle& style) const;

 private:
  const Layout& layout_;
  const FontMetrics& font_;
  Mpt width_;
};

}  // namespace benchwarden::print
