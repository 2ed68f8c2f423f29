#pragma once

#include <string>
#include <string_view>

#include "print/font_metrics.h"

namespace benchwarden::print {

/// Embeddings, overrides and isolates of UAX #9: they can show a text in another order than it
/// was recorded in.
bool turns_direction(char32_t code);

/// Text that cannot harm the page it is put on: valid UTF-8; tabs become spaces; other controls
/// but "\n", and marks that turn the direction of what follows, become U+FFFD. A reader thus
/// sees that something stood there.
std::string clean_text(std::string_view text);

/// clean_text, and U+FFFD for each character the font has no picture of or that lies above
/// U+FFFF, which the PDF writer would drop without a word. Marks of no width vanish.
std::string printable_text(std::string_view text, const FontMetrics& font);

}  // namespace benchwarden::print
