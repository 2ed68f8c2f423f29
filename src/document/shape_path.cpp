#include "document/shape_path.h"

#include <cassert>
#include <charconv>

namespace benchwarden::document {
namespace {

constexpr std::int64_t kSteps = 8;  // of a curve: no corner is seen at 46 mm

class PathReader {
 public:
  PathReader(std::string_view path, ShapePoint origin) : rest_(path), origin_(origin) {}

  std::vector<std::vector<ShapePoint>> run() {
    std::vector<std::vector<ShapePoint>> rings;
    std::vector<ShapePoint> ring;
    while (!rest_.empty()) {
      const std::string_view command = word();
      if (command == "Z") {
        rings.push_back(std::move(ring));
        ring.clear();
      } else if (command == "C") {
        add_curve(ring);
      } else {
        assert(command == "M" || command == "L");
        ring.push_back(point());
      }
    }
    assert(ring.empty());
    return rings;
  }

 private:
  std::string_view word() {
    const std::size_t end = rest_.find(' ');
    const std::string_view found = rest_.substr(0, end);
    rest_ = end == std::string_view::npos ? std::string_view() : rest_.substr(end + 1);
    return found;
  }

  std::int64_t number() {
    const std::string_view text = word();
    std::int64_t value = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
    assert(read.ptr == text.data() + text.size() && !text.empty());
    return value;
  }

  ShapePoint point() {
    const std::int64_t x = number();
    return {origin_.x + x, origin_.y + number()};
  }

  /// A cubic curve of Bézier from the last point on.
  void add_curve(std::vector<ShapePoint>& ring) {
    assert(!ring.empty());
    const ShapePoint a = ring.back();
    const ShapePoint b = point();
    const ShapePoint c = point();
    const ShapePoint d = point();
    for (std::int64_t t = 1; t <= kSteps; ++t) {
      const std::int64_t s = kSteps - t;
      const auto at = [&](std::int64_t p, std::int64_t q, std::int64_t r, std::int64_t v) {
        return (p * s * s * s + 3 * q * s * s * t + 3 * r * s * t * t + v * t * t * t) /
               (kSteps * kSteps * kSteps);
      };
      ring.push_back({at(a.x, b.x, c.x, d.x), at(a.y, b.y, c.y, d.y)});
    }
  }

  std::string_view rest_;
  ShapePoint origin_;
};

}  // namespace

std::vector<std::vector<ShapePoint>> rings_of(std::string_view path, ShapePoint origin) {
  return PathReader(path, origin).run();
}

}  // namespace benchwarden::document
