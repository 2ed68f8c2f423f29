#include "base/base64.h"

#include <openssl/evp.h>

#include <algorithm>

namespace benchwarden::base {

std::string to_base64(std::string_view bytes) {
  std::string text((bytes.size() + 2) / 3 * 4 + 1, '\0');
  const int length = EVP_EncodeBlock(reinterpret_cast<unsigned char*>(text.data()),
                                     reinterpret_cast<const unsigned char*>(bytes.data()),
                                     static_cast<int>(bytes.size()));
  text.resize(static_cast<std::size_t>(length));
  return text;
}

Result<std::string> from_base64(std::string_view text) {
  const Error none{ErrorCode::kInvalid, "no base64 (RFC 4648, section 4)"};
  if (text.size() % 4 != 0) return none;
  std::string bytes(text.size() / 4 * 3, '\0');
  const int length = EVP_DecodeBlock(reinterpret_cast<unsigned char*>(bytes.data()),
                                     reinterpret_cast<const unsigned char*>(text.data()),
                                     static_cast<int>(text.size()));
  if (length < 0) return none;
  for (const char c : text.substr(text.size() - std::min<std::size_t>(text.size(), 2))) {
    if (c == '=') bytes.pop_back();
  }
  // It is lenient with spaces, and with what padding leaves over.
  if (to_base64(bytes) != text) return none;
  return bytes;
}

Result<Sha256Digest> digest_from_base64(std::string_view text) {
  const auto bytes = from_base64(text);
  Sha256Digest digest{};
  if (!bytes || bytes->size() != digest.size()) {
    return Error{ErrorCode::kInvalid, "not 32 bytes in base64"};
  }
  std::copy(bytes->begin(), bytes->end(), digest.begin());
  return digest;
}

}  // namespace benchwarden::base
