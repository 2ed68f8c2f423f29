#pragma once

#include <string>

#include "document/document.h"

namespace benchwarden::print {

/// Every table, key figure and label in long form, RFC 4180 with a heading line: table, row,
/// column, value, unit; one line per cell, with the machine value where there is one. A text that a
/// spreadsheet would run as a formula gets a leading apostrophe; numbers stay as they are.
std::string to_csv(const document::Document& document);

}  // namespace benchwarden::print
