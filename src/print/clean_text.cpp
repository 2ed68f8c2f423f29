#include "print/clean_text.h"

#include "print/utf8.h"

namespace benchwarden::print {
namespace {

bool is_control(char32_t code) {
  return (code < 0x20 && code != U'\n') || (code >= 0x7F && code < 0xA0);
}

bool is_noncharacter(char32_t code) {
  return (code & 0xFFFEU) == 0xFFFEU || (code >= 0xFDD0 && code <= 0xFDEF);
}

bool has_no_width(char32_t code) {
  return (code >= 0x200B && code <= 0x200F) || code == 0x2060 || code == 0xFEFF || code == 0xAD;
}

char32_t clean(char32_t code) {
  if (code == U'\t' || code == U'\r') {
    return U' ';
  }
  if (code == 0x2028 || code == 0x2029) {
    return U'\n';
  }
  const bool harmful = is_control(code) || turns_direction(code) || is_noncharacter(code);
  return harmful ? kReplacement : code;
}

}  // namespace

bool turns_direction(char32_t code) {
  return (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
}

std::string clean_text(std::string_view text) {
  std::u32string codes = decode_utf8(text);
  for (char32_t& code : codes) {
    code = clean(code);
  }
  return encode_utf8(codes);
}

std::string printable_text(std::string_view text, const FontMetrics& font) {
  std::u32string printable;
  for (const char32_t raw : decode_utf8(text)) {
    const char32_t code = clean(raw);
    if (has_no_width(code)) {
      continue;
    }
    printable += code == U'\n' || font.covers(code) ? code : kReplacement;
  }
  return encode_utf8(printable);
}

}  // namespace benchwarden::print
