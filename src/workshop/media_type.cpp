#include "workshop/media_type.h"

#include <algorithm>
#include <cstdint>
#include <string>

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kPdf = "application/pdf";
constexpr std::string_view kJpeg = "image/jpeg";
constexpr std::string_view kPng = "image/png";
constexpr std::string_view kPdfBegin = "%PDF-";
constexpr std::string_view kJpegBegin = "\xFF\xD8\xFF";
constexpr std::string_view kPngBegin = "\x89PNG\r\n\x1A\n";

/// Of `count` bytes at `at`, most significant first; the caller knows that they are there.
std::size_t number_at(std::string_view bytes, std::size_t at, std::size_t count) {
  std::size_t number = 0;
  for (std::size_t i = 0; i < count; ++i) {
    number = number << 8U | static_cast<std::uint8_t>(bytes[at + i]);
  }
  return number;
}

/// ISO 32000-1, 7.5.5: the end mark stands in the last line; readers look for it in the last
/// 1 024 bytes, as some writers put more behind it.
bool is_whole_pdf(std::string_view bytes) {
  constexpr std::size_t kTailBytes = 1024;
  const std::string_view tail = bytes.substr(bytes.size() - std::min(bytes.size(), kTailBytes));
  return tail.find("startxref") < tail.rfind("%%EOF") && tail.find("%%EOF") != tail.npos;
}

/// ITU-T T.81, annex B: segments with their lengths, among them one that says how large the
/// picture is, up to the picture itself. Cameras put more behind its end mark.
bool is_whole_jpeg(std::string_view bytes) {
  constexpr std::uint8_t kStartOfScan = 0xDA;
  bool has_frame = false;
  std::size_t at = 2;
  while (at + 4 <= bytes.size() && static_cast<std::uint8_t>(bytes[at]) == 0xFF) {
    const auto marker = static_cast<std::uint8_t>(bytes[at + 1]);
    if (marker == 0xFF) {  // a filling byte
      ++at;
      continue;
    }
    const std::size_t length = number_at(bytes, at + 2, 2);
    if (length < 2 || at + 2 + length > bytes.size()) return false;
    at += 2 + length;
    if (marker == kStartOfScan) return has_frame && bytes.find("\xFF\xD9", at) != bytes.npos;
    const bool other_table = marker == 0xC4 || marker == 0xC8 || marker == 0xCC;
    has_frame = has_frame || (marker >= 0xC0 && marker <= 0xCF && !other_table);
  }
  return false;
}

/// PNG specification (W3C), 5.3 and 5.6: chunks of length, type, data and check, the first IHDR,
/// the last IEND.
bool is_whole_png(std::string_view bytes) {
  constexpr std::size_t kAround = 12;  // bytes of a chunk beside its data
  bool has_picture = false;
  for (std::size_t at = kPngBegin.size(); at + kAround <= bytes.size();) {
    const std::size_t length = number_at(bytes, at, 4);
    const std::string_view type = bytes.substr(at + 4, 4);
    if ((at == kPngBegin.size()) != (type == "IHDR")) return false;
    if (length > bytes.size() - at - kAround) return false;
    has_picture = has_picture || type == "IDAT";
    at += kAround + length;
    if (type == "IEND") return has_picture && at == bytes.size();
  }
  return false;
}

}  // namespace

std::string_view media_type_at(std::string_view beginning) {
  if (beginning.starts_with(kPdfBegin)) return kPdf;
  if (beginning.starts_with(kJpegBegin)) return kJpeg;
  if (beginning.starts_with(kPngBegin)) return kPng;
  return "";
}

base::Result<std::string_view> recognise(std::string_view bytes) {
  const std::string accepted = "; accepted: a PDF, JPEG or PNG file of at most " +
                               std::to_string(kUploadBytesMax) + " bytes";
  const auto refusal = [&](const std::string& what) {
    return base::Error{base::ErrorCode::kInvalid, what + accepted};
  };
  if (bytes.empty()) return refusal("the file is empty");
  if (bytes.size() > kUploadBytesMax) {
    return refusal("the file has " + std::to_string(bytes.size()) + " bytes");
  }
  const std::string_view type = media_type_at(bytes);
  if (type.empty()) return refusal("by its content the file is of another kind");
  const bool whole = type == kPdf    ? is_whole_pdf(bytes)
                     : type == kJpeg ? is_whole_jpeg(bytes)
                                     : is_whole_png(bytes);
  if (!whole) return refusal("the file is cut off or damaged");
  return type;
}

}  // namespace benchwarden::workshop
