#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "print/length.h"

namespace benchwarden::print {

/// The last three hold one label each; A4 and Letter hold pages, or a sheet of labels.
enum class Paper { kA4, kLetter, kA6, kA7, kRoll62 };

struct PaperSize {
  std::string_view name;
  Paper value;
  Mpt width = 0;
  Mpt height = 0;  ///< 0: as long as needed
};

/// ISO 216, and ANSI/ASME Y14.1 size A.
inline constexpr std::array kPapers{
    PaperSize{"a4", Paper::kA4, from_micrometres(210'000), from_micrometres(297'000)},
    PaperSize{"letter", Paper::kLetter, points(612), points(792)},
    PaperSize{"a6", Paper::kA6, from_micrometres(105'000), from_micrometres(148'000)},
    PaperSize{"a7", Paper::kA7, from_micrometres(74'000), from_micrometres(105'000)},
    PaperSize{"roll-62", Paper::kRoll62, from_micrometres(62'000), 0},
};

constexpr const PaperSize& size_of(Paper paper) {
  return kPapers.at(static_cast<std::size_t>(paper));
}

constexpr bool holds_pages(Paper paper) { return paper == Paper::kA4 || paper == Paper::kLetter; }

}  // namespace benchwarden::print
