#include "print/font_metrics.h"

#include <algorithm>
#include <cstddef>
#include <optional>

#include "print/utf8.h"

namespace benchwarden::print {
namespace {

constexpr std::uint16_t kAbsent = 0xFFFF;
constexpr std::size_t kCodeCount = 0x10000;

/// Big-endian numbers of the font. Reading beyond the end gives 0 and is remembered, so that the
/// caller asks once at the end.
class Bytes {
 public:
  explicit Bytes(std::string_view bytes) : bytes_(bytes) {}

  std::uint16_t u16(std::size_t at) {
    if (at + 2 > bytes_.size()) {
      overrun_ = true;
      return 0;
    }
    const auto high = static_cast<unsigned char>(bytes_[at]);
    const auto low = static_cast<unsigned char>(bytes_[at + 1]);
    return static_cast<std::uint16_t>((high << 8U) | low);
  }
  std::uint32_t u32(std::size_t at) {
    return (static_cast<std::uint32_t>(u16(at)) << 16U) | u16(at + 2);
  }
  [[nodiscard]] std::string_view tag(std::size_t at) const {
    return at + 4 <= bytes_.size() ? bytes_.substr(at, 4) : std::string_view();
  }
  [[nodiscard]] bool overrun() const { return overrun_; }

 private:
  std::string_view bytes_;
  bool overrun_ = false;
};

std::optional<std::size_t> find_table(Bytes& font, std::string_view tag) {
  const std::size_t count = font.u16(4);
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t record = 12 + 16 * i;
    if (font.tag(record) == tag) {
      return font.u32(record + 8);
    }
  }
  return std::nullopt;
}

/// The Windows Unicode subtable (platform 3, encoding 1) of format 4.
std::optional<std::size_t> find_unicode_map(Bytes& font, std::size_t cmap) {
  const std::size_t count = font.u16(cmap + 2);
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t record = cmap + 4 + 8 * i;
    const std::size_t map = cmap + font.u32(record + 4);
    if (font.u16(record) == 3 && font.u16(record + 2) == 1 && font.u16(map) == 4) {
      return map;
    }
  }
  return std::nullopt;
}

struct Segment {
  std::size_t first = 0;
  std::size_t last = 0;
  std::size_t delta = 0;
  std::size_t offset = 0;     ///< 0, or from offset_at to the glyph numbers of the segment
  std::size_t offset_at = 0;  ///< where `offset` itself stands
};

std::size_t glyph_of(Bytes& font, const Segment& segment, std::size_t code) {
  if (segment.offset == 0) {
    return (code + segment.delta) & 0xFFFFU;
  }
  const std::size_t glyph =
      font.u16(segment.offset_at + segment.offset + 2 * (code - segment.first));
  return glyph == 0 ? 0 : (glyph + segment.delta) & 0xFFFFU;
}

std::vector<std::size_t> read_glyphs(Bytes& font, std::size_t map) {
  std::vector<std::size_t> glyphs(kCodeCount, 0);
  const std::size_t doubled = font.u16(map + 6);  // twice the number of segments
  for (std::size_t i = 0; i < doubled; i += 2) {
    Segment segment;
    segment.last = font.u16(map + 14 + i);
    segment.first = font.u16(map + 16 + doubled + i);
    segment.delta = font.u16(map + 16 + 2 * doubled + i);
    segment.offset_at = map + 16 + 3 * doubled + i;
    segment.offset = font.u16(segment.offset_at);
    for (std::size_t code = segment.first; code <= segment.last && code != 0xFFFF; ++code) {
      glyphs.at(code) = glyph_of(font, segment, code);
    }
  }
  return glyphs;
}

struct Outlines {
  std::size_t loca = 0;
  std::size_t glyf = 0;
  bool long_offsets = false;
};

/// How far a glyph reaches above the baseline; 0 for an empty one.
Mpt top_of(Bytes& font, const Outlines& outlines, std::size_t glyph) {
  const auto offset = [&](std::size_t index) -> std::size_t {
    return outlines.long_offsets ? font.u32(outlines.loca + 4 * index)
                                 : std::size_t{2} * font.u16(outlines.loca + 2 * index);
  };
  const std::size_t at = offset(glyph);
  if (glyph == 0 || at == offset(glyph + 1)) return 0;
  const std::uint16_t top = font.u16(outlines.glyf + at + 8);
  return top < 0x8000 ? top : 0;
}

}  // namespace

base::Result<FontMetrics> FontMetrics::read(std::string_view font_bytes) {
  Bytes font(font_bytes);
  const auto head = find_table(font, "head");
  const auto hhea = find_table(font, "hhea");
  const auto hmtx = find_table(font, "hmtx");
  const auto cmap = find_table(font, "cmap");
  const auto loca = find_table(font, "loca");
  const auto glyf = find_table(font, "glyf");
  const auto map = cmap ? find_unicode_map(font, *cmap) : std::nullopt;
  if (!head || !hhea || !hmtx || !map || !loca || !glyf) {
    return base::Error{base::ErrorCode::kInvalid, "the font is no TrueType font with Unicode"};
  }
  const std::uint32_t units_per_em = font.u16(*head + 18);
  const std::size_t metric_count = font.u16(*hhea + 34);
  if (units_per_em == 0 || metric_count == 0) {
    return base::Error{base::ErrorCode::kInvalid, "the font has no widths"};
  }
  FontMetrics metrics;
  metrics.ascent_per_mille_ = Mpt{font.u16(*hhea + 4)} * 1000 / units_per_em;
  metrics.descent_per_mille_ = Mpt{0x10000U - font.u16(*hhea + 6)} * 1000 / units_per_em;
  metrics.widths_per_mille_.assign(kCodeCount, kAbsent);
  const std::vector<std::size_t> glyphs = read_glyphs(font, *map);
  const Outlines outlines{*loca, *glyf, font.u16(*head + 50) != 0};
  metrics.x_height_per_mille_ = top_of(font, outlines, glyphs['x']) * 1000 / units_per_em;
  metrics.cap_height_per_mille_ = top_of(font, outlines, glyphs['H']) * 1000 / units_per_em;
  for (std::size_t code = 0; code < kCodeCount; ++code) {
    if (glyphs[code] != 0) {
      const std::size_t metric = std::min(glyphs[code], metric_count - 1);
      const std::uint32_t advance = font.u16(*hmtx + 4 * metric);
      metrics.widths_per_mille_[code] = static_cast<std::uint16_t>(
          std::min<std::uint32_t>(advance * 1000 / units_per_em, kAbsent - 1));
    }
  }
  if (font.overrun() || !metrics.covers(kReplacement)) {
    return base::Error{base::ErrorCode::kInvalid, "the font is cut short or lacks U+FFFD"};
  }
  if (metrics.x_height_per_mille_ == 0 || metrics.cap_height_per_mille_ == 0) {
    return base::Error{base::ErrorCode::kInvalid, "the font lacks the letters x or H"};
  }
  return metrics;
}

bool FontMetrics::covers(char32_t code) const {
  return code < kCodeCount && widths_per_mille_[code] != kAbsent;
}

Mpt FontMetrics::width_of(char32_t code, Mpt size) const {
  return covers(code) ? size * widths_per_mille_[code] / 1000 : 0;
}

Mpt FontMetrics::width(std::string_view text, Mpt size) const {
  Mpt per_mille = 0;
  for (const char32_t code : decode_utf8(text)) {
    per_mille += covers(code) ? widths_per_mille_[code] : 0;
  }
  return per_mille * size / 1000;
}

}  // namespace benchwarden::print
