#include "print/photocopy.h"

#include <algorithm>
#include <random>
#include <sstream>

namespace benchwarden::print {
namespace {

/// The mean of a pixel and its neighbours, the middle one counting double in each direction.
std::vector<std::uint8_t> smeared(const GreyPicture& picture) {
  std::vector<std::uint8_t> shades(picture.shades.size());
  const auto width = static_cast<std::ptrdiff_t>(picture.width);
  const auto height = static_cast<std::ptrdiff_t>(picture.height);
  for (std::ptrdiff_t y = 0; y < height; ++y) {
    for (std::ptrdiff_t x = 0; x < width; ++x) {
      int sum = 0;
      for (std::ptrdiff_t dy = -1; dy <= 1; ++dy) {
        for (std::ptrdiff_t dx = -1; dx <= 1; ++dx) {
          const auto at = std::clamp<std::ptrdiff_t>(y + dy, 0, height - 1) * width +
                          std::clamp<std::ptrdiff_t>(x + dx, 0, width - 1);
          sum +=
              (dx == 0 ? 2 : 1) * (dy == 0 ? 2 : 1) * picture.shades[static_cast<std::size_t>(at)];
        }
      }
      shades[static_cast<std::size_t>(y * width + x)] = static_cast<std::uint8_t>(sum / 16);
    }
  }
  return shades;
}

}  // namespace

GreyPicture read_pgm(const std::string& bytes) {
  std::istringstream stream(bytes);
  std::string kind;
  GreyPicture picture;
  int shades = 0;
  stream >> kind >> picture.width >> picture.height >> shades;
  stream.get();
  if (kind != "P5" || shades != 255) return {};
  picture.shades.assign(std::istreambuf_iterator<char>(stream), {});
  return picture.shades.size() == picture.width * picture.height ? picture : GreyPicture{};
}

std::string write_pgm(const GreyPicture& picture) {
  return "P5\n" + std::to_string(picture.width) + " " + std::to_string(picture.height) + "\n255\n" +
         std::string(picture.shades.begin(), picture.shades.end());
}

GreyPicture photocopied(const GreyPicture& original, std::uint32_t seed, int speck_in) {
  GreyPicture copy = original;
  copy.shades = smeared(copy);
  std::mt19937 random(seed);
  std::size_t at = 0;
  for (std::uint8_t& shade : copy.shades) {
    // Darker towards the right edge: what is grey there turns black sooner.
    const std::size_t threshold = 110 + 40 * (at++ % copy.width) / copy.width;
    shade = shade < threshold ? 0 : 255;
    if (random() % static_cast<std::uint32_t>(speck_in) == 0) shade = random() % 2 == 0 ? 0 : 255;
  }
  return copy;
}

}  // namespace benchwarden::print
