#include "print/contents_bands.h"

#include <utility>

namespace benchwarden::print {
namespace {

constexpr Mpt kLevelIndent = points(14);
constexpr Mpt kRoomForNumber = points(48);  ///< at the right of every line, with some dots

Band contents_band(const document::ContentsLine& line, const Typesetter& type) {
  const Mpt size = type.layout().body_size;
  const TextStyle style = {size, line.level == 1 ? Weight::kStrong : Weight::kNormal};
  const Mpt x = (line.level - 1) * kLevelIndent;
  const auto texts = type.lines(line.text, type.width() - x - kRoomForNumber, style);
  Band band;
  band.space_before = line.level == 1 ? size / 2 : 0;
  type.add_lines(band, texts, x, style);
  const Mpt pitch = type.line_height(size);
  const Mpt baseline = std::get<TextDraw>(band.draws.back()).y;
  const Mpt end = x + type.width_of(texts.back(), size);
  band.draws.emplace_back(
      PageNumberDraw{end + size / 2, type.width(), baseline, size, line.anchor});
  for (Mpt top = 0; top < band.height; top += pitch) {
    band.draws.emplace_back(LinkDraw{x, top, type.width() - x, pitch, line.anchor, false});
  }
  return band;
}

}  // namespace

void add_contents(Flow& flow, const std::string& title,
                  const std::vector<document::ContentsLine>& lines, const Typesetter& type) {
  if (lines.empty()) return;
  const TextStyle style = {type.layout().heading_sizes.front(), Weight::kStrong};
  Band head;
  head.space_before = style.size * 3 / 2;
  head.keep = Keep::kWithNext;
  type.add_lines(head, type.lines(title, type.width(), style), 0, style);
  flow.bands.push_back(std::move(head));
  for (const document::ContentsLine& line : lines) {
    flow.bands.push_back(contents_band(line, type));
  }
  flow.bands.back().space_after = type.layout().body_size;
}

}  // namespace benchwarden::print
