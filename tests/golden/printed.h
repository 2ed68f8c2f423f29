#pragma once

#include <string>

namespace benchwarden::workshop {

/// The text of a PDF as pdftotext (poppler) lays it out, each page ended by a line that says so.
/// The test fails when it finds fault with the file.
std::string printed_text(const std::string& pdf);

}  // namespace benchwarden::workshop
