#include "print/utf8.h"

#include <array>
#include <cassert>
#include <cstddef>

namespace benchwarden::print {
namespace {

struct Step {
  char32_t code = kReplacement;
  std::size_t length = 1;
};

struct Lead {
  unsigned mask;
  unsigned pattern;
  std::size_t length;
  char32_t least;  ///< smaller values are overlong forms
};
constexpr std::array<Lead, 4> kLeads = {{{0x80U, 0x00U, 1, 0x0},
                                         {0xE0U, 0xC0U, 2, 0x80},
                                         {0xF0U, 0xE0U, 3, 0x800},
                                         {0xF8U, 0xF0U, 4, 0x10000}}};

unsigned byte_at(std::string_view text, std::size_t at) {
  return static_cast<unsigned char>(text[at]);
}

bool is_scalar(char32_t code) { return code <= 0x10FFFF && (code < 0xD800 || code > 0xDFFF); }

Step decode_one(std::string_view text, std::size_t at) {
  const unsigned first = byte_at(text, at);
  for (const Lead& lead : kLeads) {
    if ((first & lead.mask) != lead.pattern) {
      continue;
    }
    if (at + lead.length > text.size()) {
      return {};
    }
    char32_t code = first & ~lead.mask;
    for (std::size_t i = 1; i < lead.length; ++i) {
      const unsigned next = byte_at(text, at + i);
      if ((next & 0xC0U) != 0x80U) {
        return {};
      }
      code = (code << 6U) | (next & 0x3FU);
    }
    if (code < lead.least || !is_scalar(code)) {
      return {};
    }
    return {code, lead.length};
  }
  return {};
}

void append(std::string& out, unsigned byte) { out += static_cast<char>(byte); }

void append_code(std::string& out, char32_t code) {
  assert(is_scalar(code));
  if (code < 0x80) {
    append(out, code);
    return;
  }
  if (code < 0x800) {
    append(out, 0xC0U | (code >> 6U));
  } else if (code < 0x10000) {
    append(out, 0xE0U | (code >> 12U));
    append(out, 0x80U | ((code >> 6U) & 0x3FU));
  } else {
    append(out, 0xF0U | (code >> 18U));
    append(out, 0x80U | ((code >> 12U) & 0x3FU));
    append(out, 0x80U | ((code >> 6U) & 0x3FU));
  }
  append(out, 0x80U | (code & 0x3FU));
}

}  // namespace

std::u32string decode_utf8(std::string_view text) {
  std::u32string codes;
  codes.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Step step = decode_one(text, at);
    codes += step.code;
    at += step.length;
  }
  return codes;
}

std::string encode_utf8(std::u32string_view text) {
  std::string out;
  out.reserve(text.size());
  for (const char32_t code : text) {
    append_code(out, code);
  }
  return out;
}

}  // namespace benchwarden::print
