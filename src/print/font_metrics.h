#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "print/length.h"

namespace benchwarden::print {

/// What a TrueType font (ISO/IEC 14496-22) says about its characters up to U+FFFF: which it has
/// and how wide they are. Widths are in whole thousandths of the size, rounded down, because the
/// widths written into the PDF are, and a viewer moves its pen by those.
class FontMetrics {
 public:
  /// kInvalid when a table is missing or reaches beyond the bytes. The bytes are not kept.
  static base::Result<FontMetrics> read(std::string_view font_bytes);

  [[nodiscard]] bool covers(char32_t code) const;
  /// Of valid UTF-8 in the font at that size; characters not covered count nothing.
  [[nodiscard]] Mpt width(std::string_view text, Mpt size) const;
  [[nodiscard]] Mpt width_of(char32_t code, Mpt size) const;
  [[nodiscard]] Mpt ascent(Mpt size) const { return size * ascent_per_mille_ / 1000; }
  [[nodiscard]] Mpt descent(Mpt size) const { return size * descent_per_mille_ / 1000; }
  /// The smallest size at which an "x", a capital letter is at least that high.
  [[nodiscard]] Mpt size_for_x_height(Mpt height) const {
    return (height * 1000 + x_height_per_mille_ - 1) / x_height_per_mille_;
  }
  [[nodiscard]] Mpt size_for_cap_height(Mpt height) const {
    return (height * 1000 + cap_height_per_mille_ - 1) / cap_height_per_mille_;
  }

 private:
  FontMetrics() = default;
  std::vector<std::uint16_t> widths_per_mille_;  ///< by code point; kAbsent where there is none
  Mpt ascent_per_mille_ = 0;
  Mpt descent_per_mille_ = 0;  ///< below the baseline, positive
  Mpt x_height_per_mille_ = 1;
  Mpt cap_height_per_mille_ = 1;
};

}  // namespace benchwarden::print
