#include "base/json_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstddef>

namespace benchwarden::base {
namespace {

struct ShortEscape {
  char sign;
  char letter;
};
constexpr std::array kShortEscapes{
    ShortEscape{'"', '"'},  ShortEscape{'\\', '\\'}, ShortEscape{'\b', 'b'}, ShortEscape{'\f', 'f'},
    ShortEscape{'\n', 'n'}, ShortEscape{'\r', 'r'},  ShortEscape{'\t', 't'}};
constexpr std::string_view kLongEscape = "\\u00";

bool is_plain(char c) { return c != '"' && c != '\\' && static_cast<unsigned char>(c) >= 0x20; }

std::size_t count_plain(std::string_view text) {
  std::size_t count = 0;
  while (count < text.size() && is_plain(text[count])) ++count;
  return count;
}

void append_escape(char c, std::string& out) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  const auto* found = std::find_if(kShortEscapes.begin(), kShortEscapes.end(),
                                   [&](const ShortEscape& one) { return one.sign == c; });
  if (found != kShortEscapes.end()) {
    out += '\\';
    out += found->letter;
    return;
  }
  const auto code = static_cast<unsigned char>(c);
  out += kLongEscape;
  out += kDigits[code >> 4U];
  out += kDigits[code & 0xFU];
}

}  // namespace

// It differs from byte order only where a supplementary character (4 bytes, lead surrogate
// D800…DBFF) meets U+E000…U+FFFF (lead byte EE or EF).
bool utf16_less(std::string_view a, std::string_view b) {
  const auto [pa, pb] = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
  if (pa == a.end() || pb == b.end()) return pa == a.end() && pb != b.end();
  const auto ca = static_cast<unsigned char>(*pa);
  const auto cb = static_cast<unsigned char>(*pb);
  const bool a_supplementary = ca >= 0xF0;
  const bool b_supplementary = cb >= 0xF0;
  if (a_supplementary != b_supplementary && ca >= 0xEE && cb >= 0xEE) return a_supplementary;
  return ca < cb;
}

void append_json_string(std::string_view text, std::string& out) {
  out += '"';
  for (;;) {
    const std::size_t plain = count_plain(text);
    out += text.substr(0, plain);
    if (plain == text.size()) break;
    append_escape(text[plain], out);
    text.remove_prefix(plain + 1);
  }
  out += '"';
}

void JsonText::separate() {
  // A string ends with its quote, so that these can only be the signs of the grammar.
  constexpr std::string_view kNothingBefore = "{[:";
  if (!text_.empty() && kNothingBefore.find(text_.back()) == std::string_view::npos) text_ += ',';
}

void JsonText::token(std::string_view bytes) {
  separate();
  text_ += bytes;
}

void JsonText::string(std::string_view text) {
  separate();
  append_json_string(text, text_);
}

void JsonText::name(std::string_view member) {
  string(member);
  text_ += ':';
}

bool JsonInput::take(std::string_view bytes) {
  if (!rest_.starts_with(bytes)) return false;
  rest_.remove_prefix(bytes.size());
  return true;
}

std::optional<std::string> JsonInput::string() {
  if (!take("\"")) return std::nullopt;
  std::string text;
  for (;;) {
    const std::size_t plain = count_plain(rest_);
    text += rest_.substr(0, plain);
    rest_.remove_prefix(plain);
    if (take("\"")) return text;
    const auto sign = escaped();
    if (!sign) return std::nullopt;
    text += *sign;
  }
}

std::optional<char> JsonInput::escaped() {
  if (take(kLongEscape)) {
    unsigned code = 0;
    const std::string_view digits = rest_.substr(0, 2);
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), code, 16);
    if (read.ptr != digits.data() + 2 || code >= 0x20) return std::nullopt;
    rest_.remove_prefix(2);
    return static_cast<char>(code);
  }
  if (rest_.size() < 2 || rest_.front() != '\\') return std::nullopt;
  const auto* found = std::find_if(kShortEscapes.begin(), kShortEscapes.end(),
                                   [&](const ShortEscape& one) { return one.letter == rest_[1]; });
  if (found == kShortEscapes.end()) return std::nullopt;
  rest_.remove_prefix(2);
  return found->sign;
}

std::string_view JsonInput::number() {
  const std::string_view token = rest_.substr(0, rest_.find_first_of(",]}"));
  rest_.remove_prefix(token.size());
  return token;
}

}  // namespace benchwarden::base
