#pragma once

#include <cstddef>
#include <string_view>

#include "base/result.h"

namespace benchwarden::workshop {

/// Longest attachment that is taken in, in bytes: 5 MB.
inline constexpr std::size_t kUploadBytesMax = 5'000'000;

/// "application/pdf", "image/jpeg" or "image/png", told by the first 8 bytes or more; "" for
/// anything else.
std::string_view media_type_at(std::string_view beginning);

/// The same for a whole attachment, which must also be complete as far as its own structure tells:
/// the end mark of a PDF; the segments of a JPEG up to its picture, and the picture's end mark; the
/// chunks of a PNG to its last. What it shows is not looked at. kInvalid, naming what is accepted.
base::Result<std::string_view> recognise(std::string_view bytes);

}  // namespace benchwarden::workshop
