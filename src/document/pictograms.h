#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

namespace benchwarden::document {

enum class Ink { kBlack, kWhite, kRed };

struct ShapePoint {
  std::int64_t x = 0;
  std::int64_t y = 0;
};

/// An area between closed lines: what an odd number of them surrounds.
struct Shape {
  Ink ink = Ink::kBlack;
  std::vector<std::vector<ShapePoint>> rings;
};

/// Lengths within a pictogram are ten-thousandths of the side of its square. The square stands on
/// a point, so it is as wide and as high as its diagonal; points are counted from the top left.
inline constexpr std::int64_t kPictogramSide = 10'000;
inline constexpr std::int64_t kPictogramDiagonal = 14'142;

/// A hazard pictogram of the GHS ("ghs01" … "ghs09"): a black symbol on white in a red square on
/// point, to be painted in this order. Empty for any other name.
std::vector<Shape> pictogram(std::string_view symbol);

bool is_pictogram(std::string_view symbol);

}  // namespace benchwarden::document
