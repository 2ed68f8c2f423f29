#include "document/qr_code.h"

#include <qrencode.h>

#include <memory>

namespace benchwarden::document {

base::Result<std::vector<std::string>> qr_code(const std::string& text, QrLevel level) {
  if (text.empty() || text.find('\0') != std::string::npos) {
    return base::Error{base::ErrorCode::kInvalid, "a QR code holds a text, without a NUL byte"};
  }
  constexpr int kSmallestThatFits = 0;
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(
      QRcode_encodeString8bit(text.c_str(), kSmallestThatFits,
                              level == QrLevel::kM ? QR_ECLEVEL_M : QR_ECLEVEL_Q),
      &QRcode_free);
  if (!code) {
    return base::Error{base::ErrorCode::kInvalid,
                       std::to_string(text.size()) + " bytes are more than a QR code holds"};
  }
  const auto width = static_cast<std::size_t>(code->width);
  std::vector<std::string> rows(width, std::string(width, '0'));
  for (std::size_t i = 0; i < width * width; ++i) {
    // The other bits say which part of the code a module belongs to.
    if ((code->data[i] & 1U) != 0) rows[i / width][i % width] = '1';
  }
  return rows;
}

}  // namespace benchwarden::document
