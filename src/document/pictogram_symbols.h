#pragma once

#include <span>
#include <string_view>

#include "document/pictograms.h"

namespace benchwarden::document {

/// Painted over those before it.
struct SymbolLayer {
  Ink ink = Ink::kBlack;
  std::string_view path;  ///< in the notation of shape_path.h, from the middle of the square
};

/// The symbol within the frame of a pictogram; empty for an unknown name.
std::span<const SymbolLayer> symbol_layers(std::string_view symbol);

}  // namespace benchwarden::document
