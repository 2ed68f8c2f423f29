#include "print/word_wrap.h"

#include <algorithm>
#include <cassert>
#include <cstddef>

#include "print/utf8.h"

namespace benchwarden::print {
namespace {

std::vector<std::string_view> split(std::string_view text, char at) {
  std::vector<std::string_view> parts;
  for (std::size_t start = 0;;) {
    const std::size_t end = text.find(at, start);
    if (end == std::string_view::npos) {
      parts.push_back(text.substr(start));
      return parts;
    }
    parts.push_back(text.substr(start, end - start));
    start = end + 1;
  }
}

std::vector<std::string_view> words_of(std::string_view line) {
  std::vector<std::string_view> words = split(line, ' ');
  std::erase_if(words, [](std::string_view word) { return word.empty(); });
  return words;
}

bool joins_what_precedes(char32_t code) { return code >= 0x300 && code <= 0x36F; }

/// Breaks one over-long word; the last piece is left open for what follows.
std::vector<std::string> break_word(std::string_view word, Mpt width, Mpt size,
                                    const FontMetrics& font) {
  constexpr Mpt kPerMille = 1000;  // the unit in which FontMetrics adds widths up
  std::vector<std::string> pieces;
  std::u32string piece;
  Mpt per_mille = 0;
  for (const char32_t code : decode_utf8(word)) {
    const Mpt more = font.width_of(code, kPerMille);
    if (!piece.empty() && !joins_what_precedes(code) &&
        (per_mille + more) * size / kPerMille > width) {
      pieces.push_back(encode_utf8(piece));
      piece.clear();
      per_mille = 0;
    }
    piece += code;
    per_mille += more;
  }
  pieces.push_back(encode_utf8(piece));
  return pieces;
}

class Wrapper {
 public:
  Wrapper(Mpt width, Mpt size, const FontMetrics& font) : width_(width), size_(size), font_(font) {}

  void add_word(std::string_view word) {
    std::string longer = open_.empty() ? std::string(word) : open_ + " " + std::string(word);
    if (font_.width(longer, size_) <= width_) {
      open_ = std::move(longer);
      return;
    }
    if (!open_.empty()) {
      end_line();
    }
    std::vector<std::string> pieces = break_word(word, width_, size_, font_);
    open_ = std::move(pieces.back());
    pieces.pop_back();
    lines_.insert(lines_.end(), pieces.begin(), pieces.end());
  }
  void end_line() {
    lines_.push_back(std::move(open_));
    open_.clear();
  }
  std::vector<std::string> take_lines() { return std::move(lines_); }

 private:
  Mpt width_;
  Mpt size_;
  const FontMetrics& font_;
  std::vector<std::string> lines_;
  std::string open_;
};

}  // namespace

std::vector<std::string> wrap(std::string_view text, Mpt width, Mpt size, const FontMetrics& font) {
  assert(width > 0 && size > 0);
  Wrapper wrapper(width, size, font);
  for (const std::string_view line : split(text, '\n')) {
    for (const std::string_view word : words_of(line)) {
      wrapper.add_word(word);
    }
    wrapper.end_line();
  }
  return wrapper.take_lines();
}

Mpt widest_word(std::string_view text, Mpt size, const FontMetrics& font) {
  Mpt widest = 0;
  for (const std::string_view line : split(text, '\n')) {
    for (const std::string_view word : words_of(line)) {
      widest = std::max(widest, font.width(word, size));
    }
  }
  return widest;
}

Mpt width_in_two_lines(std::string_view text, Mpt size, const FontMetrics& font) {
  Mpt best = font.width(text, size);
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == ' ') {
      const Mpt upper = font.width(text.substr(0, i), size);
      const Mpt lower = font.width(text.substr(i + 1), size);
      best = std::min(best, std::max(upper, lower));
    }
  }
  return best;
}

}  // namespace benchwarden::print
