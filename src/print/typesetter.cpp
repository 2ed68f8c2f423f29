#include "print/typesetter.h"

#include <utility>

#include "print/clean_text.h"
#include "print/word_wrap.h"

namespace benchwarden::print {

std::string Typesetter::printable(std::string_view text) const {
  return printable_text(text, font_);
}

std::vector<std::string> Typesetter::lines(std::string_view text, Mpt width,
                                           const TextStyle& style) const {
  return wrap(printable(text), width, style.size, font_);
}

Mpt Typesetter::width_of(std::string_view text, Mpt size) const { return font_.width(text, size); }

TextDraw Typesetter::line(std::string text, Mpt x, Mpt top, const TextStyle& style) const {
  const Mpt ascent = font_.ascent(style.size);
  const Mpt slack = line_height(style.size) - ascent - font_.descent(style.size);
  return {x, top + slack / 2 + ascent, style.size, style.weight, std::move(text)};
}

LinkDraw Typesetter::link_under(const TextDraw& text, std::string anchor) const {
  const Mpt ascent = font_.ascent(text.size);
  return {text.x, text.y - ascent, width_of(text.text, text.size), ascent + text.size / 5,
          std::move(anchor)};
}

void Typesetter::add_lines(Band& band, const std::vector<std::string>& lines, Mpt x,
                           const TextStyle& style) const {
  for (const std::string& text : lines) {
    band.draws.emplace_back(line(text, x, band.height, style));
    band.height += line_height(style.size);
  }
}

std::vector<Band> Typesetter::line_bands(const std::vector<std::string>& lines, Mpt x,
                                         const TextStyle& style) const {
  std::vector<Band> bands;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Band band;
    add_lines(band, {lines[i]}, x, style);
    const bool first_or_last_but_one = i == 0 || i + 2 == lines.size();
    band.keep = first_or_last_but_one && i + 1 < lines.size() ? Keep::kWithNext : Keep::kFree;
    bands.push_back(std::move(band));
  }
  return bands;
}

}  // namespace benchwarden::print
