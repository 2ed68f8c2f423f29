#pragma once

#include <string>
#include <vector>

#include "base/result.h"

namespace benchwarden::document {

/// The rows of modules of a QR code (ISO/IEC 18004) of error correction level M, "1" for dark,
/// without the quiet zone of four modules that belongs around it. kInvalid: an empty text, one with
/// a NUL byte, or more than such a code holds (2 331 bytes).
base::Result<std::vector<std::string>> qr_code(const std::string& text);

}  // namespace benchwarden::document
