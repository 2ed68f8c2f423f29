#pragma once

#include <string>

#include "document/document.h"

namespace benchwarden::print {

/// The charts, QR codes and labels of the document as one drawing, one below the other, each
/// under its caption. "" where there is none.
std::string to_svg(const document::Document& document);

}  // namespace benchwarden::print
