#pragma once

#include <string>

#include "print/band.h"

namespace benchwarden::print {

/// One <path> in the units of its points.
std::string svg_area(const AreaDraw& area);

}  // namespace benchwarden::print
