#include "document/short_lines.h"

#include <algorithm>
#include <cassert>

#include "base/text.h"

namespace benchwarden::document {
namespace {

bool begins_sign(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }

/// The bytes of the first `count` signs.
std::size_t bytes_of(std::string_view text, std::size_t count) {
  std::size_t at = 0;
  for (; at < text.size(); ++at) {
    if (begins_sign(text[at]) && count-- == 0) return at;
  }
  return at;
}

std::size_t signs_of(std::string_view text) { return base::count_code_points(text); }

}  // namespace

std::vector<std::string> short_lines(std::string_view text, std::size_t most) {
  assert(most > 0);
  std::vector<std::string> lines(1);
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find_first_of(" \n", at), text.size());
    std::string_view word = text.substr(at, end - at);
    at = end + 1;
    if (word.empty()) continue;
    const std::size_t used = signs_of(lines.back());
    if (used > 0 && used + 1 + signs_of(word) <= most) {
      lines.back().append(" ").append(word);
      continue;
    }
    if (used > 0) lines.emplace_back();
    for (std::size_t part = bytes_of(word, most); part < word.size(); part = bytes_of(word, most)) {
      lines.back() = word.substr(0, part);
      lines.emplace_back();
      word.remove_prefix(part);
    }
    lines.back() = word;
  }
  return lines;
}

std::string shortened(std::string_view text, std::size_t most) {
  assert(most > 0);
  if (signs_of(text) <= most) return std::string(text);
  return std::string(text.substr(0, bytes_of(text, most - 1))) + "\u2026";
}

}  // namespace benchwarden::document
