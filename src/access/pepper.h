#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <string_view>

#include "base/result.h"

namespace benchwarden::access {

/// 32 secret bytes kept beside, not in, access.db and left out of its backups: with a stolen
/// access.db alone, the million PINs of six digits cannot be tried.
class Pepper {
 public:
  static constexpr std::size_t kSize = 32;
  enum class IfMissing { kMake, kRefuse };

  /// Reads `folder`/pepper. kDamaged: missing under kRefuse, or of another size.
  static base::Result<Pepper> load(const std::filesystem::path& folder, IfMissing if_missing);

  Pepper(const Pepper&) = default;
  Pepper(Pepper&&) = default;
  Pepper& operator=(const Pepper&) = delete;
  Pepper& operator=(Pepper&&) = delete;
  ~Pepper();

  /// HMAC-SHA-256 (RFC 2104) of `text` under the pepper.
  [[nodiscard]] std::array<std::uint8_t, 32> mark(std::string_view text) const;

 private:
  explicit Pepper(std::string_view bytes);  ///< kSize of them
  std::array<std::uint8_t, kSize> bytes_{};
};

}  // namespace benchwarden::access
