#pragma once

#include <string>

namespace benchwarden::print {

/// The text of a PDF's ToUnicode map for a font whose two-byte codes are UTF-16 code units
/// (ISO 32000-1, 9.10.3): each code of the basic plane but the surrogates stands for itself.
std::string unicode_map();

}  // namespace benchwarden::print
