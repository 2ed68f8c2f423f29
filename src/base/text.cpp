#include "base/text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <optional>

namespace benchwarden::base {
namespace {

std::uint8_t byte_at(std::string_view text, std::size_t at) {
  return static_cast<std::uint8_t>(text[at]);
}

struct Decoded {
  char32_t code_point;
  std::size_t length;
};

std::size_t sequence_length(std::uint8_t first) {
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return 2;
  if (first >= 0xE0 && first <= 0xEF) return 3;
  if (first >= 0xF0 && first <= 0xF4) return 4;
  return 0;
}

/// One code point of UTF-8 as RFC 3629 allows it: shortest form, no surrogates, up to U+10FFFF.
std::optional<Decoded> decode(std::string_view text, std::size_t at) {
  const std::uint8_t first = byte_at(text, at);
  const std::size_t length = sequence_length(first);
  if (length == 0 || at + length > text.size()) return std::nullopt;
  if (length == 1) return Decoded{first, 1};
  char32_t code_point = first & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    const std::uint8_t next = byte_at(text, at + i);
    if ((next & 0xC0U) != 0x80U) return std::nullopt;
    code_point = code_point << 6U | (next & 0x3FU);
  }
  const bool overlong =
      (length == 3 && code_point < 0x800) || (length == 4 && code_point < 0x10000);
  const bool surrogate = code_point >= 0xD800 && code_point <= 0xDFFF;
  if (overlong || surrogate || code_point > 0x10FFFF) return std::nullopt;
  return Decoded{code_point, length};
}

struct Range {
  char32_t first;
  char32_t last;
};
constexpr std::array kHidden{Range{0x0000, 0x001F},  Range{0x007F, 0x009F}, Range{0x00AD, 0x00AD},
                             Range{0x061C, 0x061C},  Range{0x180E, 0x180E}, Range{0x200B, 0x200B},
                             Range{0x200E, 0x200F},  Range{0x2028, 0x202E}, Range{0x2060, 0x206F},
                             Range{0xFDD0, 0xFDEF},  Range{0xFEFF, 0xFEFF}, Range{0xFFF9, 0xFFFB},
                             Range{0xE0000, 0xE007F}};
/// White_Space of the Unicode character database beyond kHidden; fillers, joiners and selectors,
/// which draw nothing of their own; and the empty pattern of Braille.
constexpr std::array kUnseen{Range{0x0020, 0x0020}, Range{0x00A0, 0x00A0}, Range{0x034F, 0x034F},
                             Range{0x115F, 0x1160}, Range{0x1680, 0x1680}, Range{0x180B, 0x180F},
                             Range{0x2000, 0x200D}, Range{0x202F, 0x202F}, Range{0x205F, 0x205F},
                             Range{0x2800, 0x2800}, Range{0x3000, 0x3000}, Range{0x3164, 0x3164},
                             Range{0xFE00, 0xFE0F}, Range{0xFFA0, 0xFFA0}, Range{0xE0100, 0xE01EF}};

template <std::size_t kSize>
bool in_ranges(const std::array<Range, kSize>& ranges, char32_t code_point) {
  return std::any_of(ranges.begin(), ranges.end(), [&](const Range& range) {
    return code_point >= range.first && code_point <= range.last;
  });
}

/// The last two of each plane are no characters.
bool is_hidden(char32_t code_point) {
  return in_ranges(kHidden, code_point) || (code_point & 0xFFFEU) == 0xFFFEU;
}

}  // namespace

bool is_valid_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    if (byte_at(text, at) < 0x80) {
      ++at;
      continue;
    }
    const auto decoded = decode(text, at);
    if (!decoded) return false;
    at += decoded->length;
  }
  return true;
}

std::size_t count_code_points(std::string_view text) {
  std::size_t count = 0;
  for (const char c : text) {
    if ((static_cast<std::uint8_t>(c) & 0xC0U) != 0x80U) ++count;
  }
  return count;
}

std::string_view first_sign(std::string_view text) {
  return text.empty() ? text : text.substr(0, sequence_length(byte_at(text, 0)));
}

std::optional<char32_t> hidden_sign(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const auto decoded = decode(text, at);
    if (!decoded) return U'\uFFFD';
    if (is_hidden(decoded->code_point)) return decoded->code_point;
    at += decoded->length;
  }
  return std::nullopt;
}

bool is_blank(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const auto decoded = decode(text, at);
    if (!decoded || !in_ranges(kUnseen, decoded->code_point)) return false;
    at += decoded->length;
  }
  return true;
}

std::string sign_name(char32_t code_point) {
  constexpr std::string_view kDigits = "0123456789ABCDEF";
  constexpr std::size_t kDigitsMin = 4;
  std::string digits;
  for (auto rest = static_cast<std::uint32_t>(code_point); rest > 0; rest >>= 4U) {
    digits.insert(digits.begin(), kDigits[rest & 0xFU]);
  }
  if (digits.size() < kDigitsMin) digits.insert(0, kDigitsMin - digits.size(), '0');
  return "U+" + digits;
}

std::string one_line(std::string_view text) {
  std::string line;
  for (std::size_t at = 0; at < text.size();) {
    const auto decoded = decode(text, at);
    const std::size_t length = decoded ? decoded->length : 1;
    const std::optional<char32_t> hidden = hidden_sign(text.substr(at, length));
    line += hidden ? "<" + sign_name(*hidden) + ">" : std::string(text.substr(at, length));
    at += length;
  }
  return line;
}

std::optional<std::uint64_t> whole_number(std::string_view text) {
  std::uint64_t number = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
  // A second way to write the same number shows here.
  if (read.ec != std::errc() || std::to_string(number) != text) return std::nullopt;
  return number;
}

std::string fill(std::string_view pattern,
                 const std::vector<std::pair<std::string_view, std::string>>& values) {
  std::string text;
  while (!pattern.empty()) {
    const std::size_t open = pattern.find('{');
    const std::size_t close = pattern.find('}', open == std::string_view::npos ? 0 : open);
    if (open == std::string_view::npos || close == std::string_view::npos) break;
    text += pattern.substr(0, open);
    const std::string_view name = pattern.substr(open + 1, close - open - 1);
    const std::string* found = nullptr;
    for (const auto& [key, value] : values) {
      if (key == name) found = &value;
    }
    text += found != nullptr ? *found : std::string(pattern.substr(open, close - open + 1));
    pattern.remove_prefix(close + 1);
  }
  return text + std::string(pattern);
}

std::string join(const std::vector<std::string>& parts, std::string_view separator) {
  std::string text;
  for (const std::string& part : parts) {
    if (&part != &parts.front()) text += separator;
    text += part;
  }
  return text;
}

std::string grouped_digits(std::string_view digits) {
  constexpr std::string_view kThousandsSpace = "\u202F";
  std::string text;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (i > 0 && (digits.size() - i) % 3 == 0) text += kThousandsSpace;
    text += digits[i];
  }
  return text;
}

bool is_slug(std::string_view text) {
  constexpr std::size_t kLengthMax = 40;
  if (text.empty() || text.size() > kLengthMax) return false;
  if (text.front() < 'a' || text.front() > 'z') return false;
  for (const char c : text) {
    const bool allowed = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    if (!allowed) return false;
  }
  return true;
}

}  // namespace benchwarden::base
