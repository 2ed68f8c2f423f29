#include "forms/text_format.h"

#include <algorithm>
#include <array>
#include <cassert>

#include "base/civil_date.h"
#include "base/sha256.h"
#include "base/zone.h"

namespace benchwarden::forms {
namespace {

struct Row {
  TextFormat format;
  std::string_view name;
  std::string_view shape;
  std::string_view pattern;
};

constexpr std::array kRows{
    Row{TextFormat::kAny, "", "", ""},
    Row{TextFormat::kMonth, "month", "YYYY-MM", "^[0-9]{4}-(0[1-9]|1[0-2])$"},
    Row{TextFormat::kTimeZone, "time-zone", "Area/City (IANA)", ""},
    Row{TextFormat::kLowCode, "low-code", "dd dd dd, the first pair 01 to 20",
        "^(0[1-9]|1[0-9]|20)( (0[1-9]|[1-9][0-9])){2}$"},
    Row{TextFormat::kSha256, "sha256", "64 × 0-9a-f", "^[0-9a-f]{64}$"},
};

const Row& row_of(TextFormat format) {
  const auto* found = std::find_if(kRows.begin(), kRows.end(),
                                   [&](const Row& row) { return row.format == format; });
  assert(found != kRows.end());
  return *found;
}

/// Chapter, sub-chapter and entry of the European List of Waste (Decision 2000/532/EC), which has
/// 20 chapters and counts from 01. Which entries there are is not judged: the list grows.
bool is_low_code(std::string_view text) {
  constexpr std::string_view kShape = "dd dd dd";
  const bool shaped = text.size() == kShape.size() &&
                      std::equal(text.begin(), text.end(), kShape.begin(), [](char c, char shape) {
                        return shape == 'd' ? c >= '0' && c <= '9' : c == shape;
                      });
  if (!shaped) return false;
  const auto pair = [&](std::size_t at) { return text.substr(at, 2); };
  return pair(0) >= "01" && pair(0) <= "20" && pair(3) >= "01" && pair(6) >= "01";
}

bool is_sha256(std::string_view text) {
  const auto digest = base::digest_from_hex(text);
  return digest.ok() && base::to_hex(*digest) == text;
}

}  // namespace

std::optional<TextFormat> find_text_format(std::string_view name) {
  for (const Row& row : kRows) {
    if (row.name == name && row.format != TextFormat::kAny) return row.format;
  }
  return std::nullopt;
}

std::string_view text_format_name(TextFormat format) { return row_of(format).name; }
std::string_view text_format_shape(TextFormat format) { return row_of(format).shape; }
std::string_view text_format_pattern(TextFormat format) { return row_of(format).pattern; }

bool has_format(std::string_view text, TextFormat format) {
  switch (format) {
    case TextFormat::kAny:
      return true;
    case TextFormat::kMonth:
      return base::parse_month(text).ok();
    case TextFormat::kTimeZone:
      return base::Zone::find(text).ok();
    case TextFormat::kLowCode:
      return is_low_code(text);
    case TextFormat::kSha256:
      return is_sha256(text);
  }
  assert(false);
  return false;
}

}  // namespace benchwarden::forms
