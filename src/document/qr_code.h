#pragma once

#include <string>
#include <vector>

#include "base/result.h"

namespace benchwarden::document {

/// How much of a code may be lost and still be read: M about 15 %, Q about 25 % (ISO/IEC 18004).
enum class QrLevel { kM, kQ };

/// The rows of modules of a QR code (ISO/IEC 18004), "1" for dark, without the quiet zone of four
/// modules that belongs around it. kInvalid: an empty text, one with a NUL byte, or more than such
/// a code holds (2 331 bytes at level M, 1 663 at level Q).
base::Result<std::vector<std::string>> qr_code(const std::string& text,
                                               QrLevel level = QrLevel::kM);

}  // namespace benchwarden::document
