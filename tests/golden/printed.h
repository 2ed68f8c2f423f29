#pragma once

#include <string>

namespace benchwarden::workshop {

/// The text of a PDF as pdftotext (poppler) lays it out, page after page. The test fails when it
/// finds fault with the file.
std::string printed_text(const std::string& pdf);

}  // namespace benchwarden::workshop
