#include "print/symbol_draws.h"

#include <utility>

namespace benchwarden::print {

std::vector<Draw> pictogram_draws(std::string_view symbol, Point at, Mpt side) {
  std::vector<Draw> draws;
  for (const document::Shape& shape : document::pictogram(symbol)) {
    AreaDraw area{shape.ink, {}};
    for (const auto& ring : shape.rings) {
      std::vector<Point>& points = area.rings.emplace_back();
      for (const document::ShapePoint& point : ring) {
        points.push_back({at.x + point.x * side / document::kPictogramSide,
                          at.y + point.y * side / document::kPictogramSide});
      }
    }
    draws.emplace_back(std::move(area));
  }
  return draws;
}

AreaDraw qr_draw(const std::vector<std::string>& rows, Point at, Mpt module) {
  AreaDraw area;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    const Mpt top = at.y + static_cast<Mpt>(row) * module;
    for (std::size_t first = rows[row].find('1'); first != std::string::npos;) {
      const std::size_t end = std::min(rows[row].find('0', first), rows[row].size());
      const Mpt left = at.x + static_cast<Mpt>(first) * module;
      const Mpt right = at.x + static_cast<Mpt>(end) * module;
      area.rings.push_back(
          {{left, top}, {right, top}, {right, top + module}, {left, top + module}});
      first = rows[row].find('1', end);
    }
  }
  return area;
}

}  // namespace benchwarden::print
