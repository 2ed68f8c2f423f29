#include "document/pictograms.h"

#include "document/pictogram_symbols.h"
#include "document/shape_path.h"

namespace benchwarden::document {
namespace {

constexpr std::int64_t kMiddle = kPictogramDiagonal / 2;
constexpr std::int64_t kFrameInset = 707;  // along the diagonal: a line of a twentieth of the side

Shape square_on_point(std::int64_t inset, Ink ink) {
  const std::int64_t last = kPictogramDiagonal - inset;
  return {ink, {{{kMiddle, inset}, {last, kMiddle}, {kMiddle, last}, {inset, kMiddle}}}};
}

}  // namespace

std::vector<Shape> pictogram(std::string_view symbol) {
  std::vector<Shape> shapes;
  for (const SymbolLayer& layer : symbol_layers(symbol)) {
    if (shapes.empty()) {
      shapes = {square_on_point(0, Ink::kRed), square_on_point(kFrameInset, Ink::kWhite)};
    }
    shapes.push_back({layer.ink, rings_of(layer.path, {kMiddle, kMiddle})});
  }
  return shapes;
}

bool is_pictogram(std::string_view symbol) { return !symbol_layers(symbol).empty(); }

}  // namespace benchwarden::document
