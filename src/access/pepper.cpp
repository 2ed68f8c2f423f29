#include "access/pepper.h"

#include <sodium.h>

#include <algorithm>
#include <cassert>
#include <string>

#include "access/private_file.h"

namespace benchwarden::access {

static_assert(crypto_auth_hmacsha256_KEYBYTES == Pepper::kSize);
static_assert(crypto_auth_hmacsha256_BYTES == 32);

namespace {

/// kConflict is no fault here: another process that started at once was first.
base::Status<> make_pepper(const std::filesystem::path& file) {
  std::string fresh(Pepper::kSize, '\0');
  randombytes_buf(fresh.data(), fresh.size());
  auto written = write_private_file(file, fresh);
  sodium_memzero(fresh.data(), fresh.size());
  if (!written && written.error().code == base::ErrorCode::kConflict) return base::Done{};
  return written;
}

}  // namespace

base::Result<Pepper> Pepper::load(const std::filesystem::path& folder, IfMissing if_missing) {
  const std::filesystem::path file = folder / "pepper";
  auto bytes = read_private_file(file, kSize);
  if (!bytes && bytes.error().code == base::ErrorCode::kNotFound) {
    if (if_missing == IfMissing::kRefuse) {
      return base::Error{base::ErrorCode::kDamaged,
                         file.string() + ": missing, so no PIN can be checked: put it back"};
    }
    const auto made = make_pepper(file);
    if (!made) return made.error();
    bytes = read_private_file(file, kSize);
  }
  if (!bytes && bytes.error().code != base::ErrorCode::kInvalid) return bytes.error();
  if (!bytes || bytes->size() != kSize) {
    return base::Error{base::ErrorCode::kDamaged,
                       file.string() + ": not " + std::to_string(kSize) + " bytes long"};
  }
  return Pepper(*bytes);
}

Pepper::Pepper(std::string_view bytes) {
  assert(bytes.size() == kSize);
  std::copy(bytes.begin(), bytes.end(), bytes_.begin());
}

Pepper::~Pepper() { sodium_memzero(bytes_.data(), bytes_.size()); }

std::array<std::uint8_t, 32> Pepper::mark(std::string_view text) const {
  std::array<std::uint8_t, 32> result{};
  crypto_auth_hmacsha256(result.data(), reinterpret_cast<const unsigned char*>(text.data()),
                         text.size(), bytes_.data());
  return result;
}

}  // namespace benchwarden::access
