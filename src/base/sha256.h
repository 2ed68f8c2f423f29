#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "base/result.h"

namespace benchwarden::base {

using Sha256Digest = std::array<std::uint8_t, 32>;

/// SHA-256 (FIPS 180-4) over the parts in order, without joining them first.
Sha256Digest sha256(std::span<const std::string_view> parts);
Sha256Digest sha256(std::string_view bytes);

/// SHA-256 of bytes that come piece by piece; after `finish` it begins anew.
class Sha256Stream {
 public:
  Sha256Stream();
  Sha256Stream(const Sha256Stream&) = delete;
  Sha256Stream& operator=(const Sha256Stream&) = delete;
  ~Sha256Stream();
  void add(std::string_view bytes);
  Sha256Digest finish();

 private:
  struct Hasher;
  std::unique_ptr<Hasher> hasher_;
};

std::string to_hex(std::span<const std::uint8_t> bytes);  ///< lower case
Result<Sha256Digest> digest_from_hex(std::string_view text);
std::string_view as_bytes(const Sha256Digest& digest);

}  // namespace benchwarden::base
