#include "document/pictograms.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <set>
#include <string>

#include "document/shape_path.h"

namespace benchwarden::document {
namespace {

std::string symbol_of(int number) { return "ghs0" + std::to_string(number); }

std::int64_t from_middle(const ShapePoint& point) {
  constexpr std::int64_t kMiddle = kPictogramDiagonal / 2;
  return std::abs(point.x - kMiddle) + std::abs(point.y - kMiddle);
}

TEST(Pictograms, AreNineAndNoOthers) {
  for (int number = 1; number <= 9; ++number) {
    EXPECT_TRUE(is_pictogram(symbol_of(number))) << number;
    EXPECT_FALSE(pictogram(symbol_of(number)).empty()) << number;
  }
  for (const char* other : {"ghs00", "ghs10", "GHS02", "flame", ""}) {
    EXPECT_FALSE(is_pictogram(other)) << other;
    EXPECT_TRUE(pictogram(other).empty()) << other;
  }
}

TEST(Pictograms, HaveARedSquareOnPointAroundWhite) {
  for (int number = 1; number <= 9; ++number) {
    const auto shapes = pictogram(symbol_of(number));
    ASSERT_GE(shapes.size(), 3U);
    EXPECT_EQ(shapes[0].ink, Ink::kRed);
    EXPECT_EQ(shapes[1].ink, Ink::kWhite);
    ASSERT_EQ(shapes[0].rings.size(), 1U);
    ASSERT_EQ(shapes[0].rings[0].size(), 4U);
    for (const ShapePoint& corner : shapes[0].rings[0]) {
      EXPECT_NEAR(static_cast<double>(from_middle(corner)), kPictogramDiagonal / 2.0, 1);
    }
    for (std::size_t i = 2; i < shapes.size(); ++i) EXPECT_NE(shapes[i].ink, Ink::kRed);
  }
}

TEST(Pictograms, HaveSymbolsThatStayInsideTheirFrame) {
  const std::int64_t inner = from_middle(pictogram("ghs07")[1].rings[0][0]);
  for (int number = 1; number <= 9; ++number) {
    const auto shapes = pictogram(symbol_of(number));
    std::int64_t widest = 0;
    for (std::size_t i = 2; i < shapes.size(); ++i) {
      for (const auto& ring : shapes[i].rings) {
        EXPECT_GE(ring.size(), 3U);
        for (const ShapePoint& point : ring) widest = std::max(widest, from_middle(point));
      }
    }
    EXPECT_LT(widest, inner) << number;
    EXPECT_GT(widest, inner * 6 / 10) << number << ": too small to be seen";
  }
}

bool surrounds(const std::vector<ShapePoint>& ring, std::int64_t x, std::int64_t y) {
  bool inside = false;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const ShapePoint& a = ring[i];
    const ShapePoint& b = ring[(i + 1) % ring.size()];
    if ((a.y > y) == (b.y > y)) continue;
    const double crossing = static_cast<double>(a.x) + static_cast<double>(b.x - a.x) *
                                                           static_cast<double>(y - a.y) /
                                                           static_cast<double>(b.y - a.y);
    if (static_cast<double>(x) < crossing) inside = !inside;
  }
  return inside;
}

/// The black of what a painter sees, as a share of the square.
double black_share(const std::vector<Shape>& shapes) {
  constexpr std::int64_t kStep = 101;
  std::int64_t black = 0;
  for (std::int64_t y = 0; y < kPictogramDiagonal; y += kStep) {
    for (std::int64_t x = 0; x < kPictogramDiagonal; x += kStep) {
      Ink seen = Ink::kWhite;
      for (const Shape& shape : shapes) {
        bool inside = false;
        for (const auto& ring : shape.rings) inside = inside != surrounds(ring, x, y);
        if (inside) seen = shape.ink;
      }
      black += seen == Ink::kBlack ? kStep * kStep : 0;
    }
  }
  return static_cast<double>(black) / (1e4 * 1e4);
}

TEST(Pictograms, AreToldApartAndNoneIsNearlyEmptyOrFull) {
  std::set<std::vector<std::size_t>> sizes;
  for (int number = 1; number <= 9; ++number) {
    const auto shapes = pictogram(symbol_of(number));
    EXPECT_GT(black_share(shapes), 0.03) << number;
    EXPECT_LT(black_share(shapes), 0.5) << number;
    std::vector<std::size_t> counts;
    for (const Shape& shape : shapes) {
      for (const auto& ring : shape.rings) counts.push_back(ring.size());
    }
    EXPECT_TRUE(sizes.insert(counts).second) << number;
  }
}

TEST(ShapePath, ReadsStraightLinesFromTheirOrigin) {
  const auto rings = rings_of("M -5 0 L 5 0 L 0 8 Z M 1 1 L 2 1 L 2 2 Z", {100, 200});
  ASSERT_EQ(rings.size(), 2U);
  ASSERT_EQ(rings[0].size(), 3U);
  EXPECT_EQ(rings[0][0].x, 95);
  EXPECT_EQ(rings[0][2].y, 208);
  EXPECT_EQ(rings[1][0].x, 101);
}

TEST(ShapePath, BendsACurveFromItsFirstPointToItsLast) {
  // A quarter of a circle, by the usual constant 0.5523.
  const auto rings = rings_of("M 0 -10000 C 5523 -10000 10000 -5523 10000 0 L 0 0 Z", {});
  ASSERT_EQ(rings.size(), 1U);
  ASSERT_EQ(rings[0].size(), 10U);
  EXPECT_EQ(rings[0][8].x, 10'000);
  EXPECT_EQ(rings[0][8].y, 0);
  for (std::size_t i = 0; i < 9; ++i) {
    const auto x = static_cast<double>(rings[0][i].x);
    const auto y = static_cast<double>(rings[0][i].y);
    EXPECT_NEAR(x * x + y * y, 1e8, 1e8 * 0.001) << i;
  }
}

}  // namespace
}  // namespace benchwarden::document
