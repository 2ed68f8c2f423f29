#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "print/band.h"

namespace benchwarden::print {

/// A pictogram whose square has that side; `at` is the top left of its diagonals.
std::vector<Draw> pictogram_draws(std::string_view symbol, Point at, Mpt side);

/// The dark modules of a QR code as one area, so that no viewer leaves hairlines between them.
AreaDraw qr_draw(const std::vector<std::string>& rows, Point at, Mpt module);

inline constexpr Mpt kQuietModules = 4;  ///< around a QR code (ISO/IEC 18004)

}  // namespace benchwarden::print
