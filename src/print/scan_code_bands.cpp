#include "print/scan_code_bands.h"

#include <algorithm>
#include <utility>

#include "document/qr_code.h"

namespace benchwarden::print {
namespace {

/// Of a module; from 2 pt on a copy of a copy is still read.
constexpr Mpt kModule = points(5) / 2;
constexpr Mpt kQuietZone = 4;  ///< modules, by ISO/IEC 18004
constexpr Mpt kWordsWidthMin = points(120);

}  // namespace

std::vector<Draw> qr_draws(const std::vector<std::string>& rows, Mpt x, Mpt y, Mpt module) {
  std::vector<Draw> draws;
  for (const std::string& row : rows) {
    for (std::size_t first = row.find('1'); first != std::string::npos;) {
      const std::size_t end = std::min(row.find('0', first), row.size());
      draws.emplace_back(FillDraw{x + static_cast<Mpt>(first) * module, y,
                                  static_cast<Mpt>(end - first) * module, module, 100});
      first = row.find('1', end);
    }
    y += module;
  }
  return draws;
}

void add_scan_code(Flow& flow, const document::ScanCode& code, const Typesetter& type) {
  const auto rows = document::qr_code(code.content);
  const Mpt side = rows ? (static_cast<Mpt>(rows->size()) + 2 * kQuietZone) * kModule : 0;
  Band band;
  band.space_before = type.layout().body_size;
  band.space_after = type.layout().body_size;
  if (rows) band.draws = qr_draws(*rows, kQuietZone * kModule, kQuietZone * kModule, kModule);
  const bool beside = type.width() - side >= kWordsWidthMin;
  const Mpt x = beside ? side : 0;
  band.height = beside && rows ? kQuietZone * kModule : side;
  const TextStyle style = {type.layout().body_size, Weight::kNormal};
  for (const std::string& line : code.lines) {
    type.add_lines(band, type.lines(line, type.width() - x, style), x, style);
  }
  band.height = std::max(band.height, side);
  if (band.height > 0) flow.bands.push_back(std::move(band));
}

}  // namespace benchwarden::print
