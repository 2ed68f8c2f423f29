#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "document/chart_layout.h"

namespace benchwarden::print {

/// Of the text in a chart, in the unit of its layout.
inline constexpr std::int64_t kSvgTextSize = 175;

/// ` name="value"`
std::string svg_attribute(std::string_view name, std::int64_t value);

/// One line of text, made safe; `attributes` are written as they stand.
std::string svg_text(std::int64_t x, std::int64_t y, std::string_view text,
                     std::string_view attributes = "");

/// The lines and texts of a chart, to be put into an <svg> of that size.
std::string svg_chart(const document::ChartLayout& layout);

/// The dark modules of document::qr_code as one <path>; a module is one unit wide.
std::string svg_modules(const std::vector<std::string>& rows);

}  // namespace benchwarden::print
