#include "print/svg_area.h"

#include <string_view>

namespace benchwarden::print {
namespace {

std::string_view ink_colour(document::Ink ink) {
  switch (ink) {
    case document::Ink::kBlack:
      return "#000";
    case document::Ink::kWhite:
      return "#fff";
    case document::Ink::kRed:
      break;
  }
  return "#c00";
}

}  // namespace

std::string svg_area(const AreaDraw& area) {
  std::string path;
  for (const std::vector<Point>& ring : area.rings) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      path += (i == 0 ? "M" : "L") + std::to_string(ring[i].x) + " " + std::to_string(ring[i].y);
    }
    path += "Z";
  }
  return "<path fill=\"" + std::string(ink_colour(area.ink)) + "\" fill-rule=\"evenodd\" d=\"" +
         path + "\"/>\n";
}

}  // namespace benchwarden::print
