#pragma once

#include <string_view>
#include <vector>

#include "document/pictograms.h"

namespace benchwarden::document {

/// The closed lines of a path in a part of the notation of SVG (W3C, SVG 1.1, 8.3): M, L, C and Z,
/// absolute, whole numbers, everything parted by single spaces. Curves become short straight lines.
/// Only for paths that stand in the source: what is not understood is asserted.
std::vector<std::vector<ShapePoint>> rings_of(std::string_view path, ShapePoint origin);

}  // namespace benchwarden::document
