#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace benchwarden::print {

/// A picture in shades of grey, 0 black to 255 white, as the PGM files of netpbm have it.
struct GreyPicture {
  std::size_t width = 0;
  std::size_t height = 0;
  std::vector<std::uint8_t> shades;
};

/// Of a binary PGM file (P5, 255 shades); an empty picture for anything else.
GreyPicture read_pgm(const std::string& bytes);
std::string write_pgm(const GreyPicture& picture);

/// What a poor photocopier makes of it: the toner is smeared over the neighbours, the light is
/// uneven, everything is made black or white, and specks of dust and holes in the toner fall
/// anywhere, one in `speck_in` pixels. The same seed gives the same copy.
GreyPicture photocopied(const GreyPicture& original, std::uint32_t seed, int speck_in);

}  // namespace benchwarden::print
