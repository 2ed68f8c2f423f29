#include "access/token.h"

#include <sodium.h>

#include <array>
#include <cassert>
#include <cstring>

namespace benchwarden::access {
namespace {

constexpr std::size_t kTokenBytes = 32;
constexpr std::size_t kTokenCharacters = 43;
constexpr int kBase64Url = sodium_base64_VARIANT_URLSAFE_NO_PADDING;
constexpr std::string_view kCodeAlphabet = "23456789ABCDEFGHJKMNPQRSTVWXYZ";
constexpr std::size_t kCodeCharacters = 8;

}  // namespace

std::string new_token() {
  std::array<unsigned char, kTokenBytes> bytes{};
  randombytes_buf(bytes.data(), bytes.size());
  std::array<char, kTokenCharacters + 1> text{};
  sodium_bin2base64(text.data(), text.size(), bytes.data(), bytes.size(), kBase64Url);
  sodium_memzero(bytes.data(), bytes.size());
  assert(std::strlen(text.data()) == kTokenCharacters);
  return text.data();
}

std::optional<base::Sha256Digest> token_digest(std::string_view token) {
  if (token.size() != kTokenCharacters) return std::nullopt;
  return base::sha256(token);
}

std::string new_code() {
  std::string code;
  while (code.size() < kCodeCharacters) {
    code += kCodeAlphabet[randombytes_uniform(static_cast<std::uint32_t>(kCodeAlphabet.size()))];
  }
  return code;
}

std::string tidy_code(std::string_view typed) {
  std::string code;
  for (const char c : typed) {
    if (c == ' ' || c == '-') continue;
    code += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  }
  return code;
}

}  // namespace benchwarden::access
