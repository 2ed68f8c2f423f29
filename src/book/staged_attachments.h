#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <mutex>
#include <string>

#include "base/clock.h"
#include "base/result.h"
#include "base/sha256.h"
#include "book/connection.h"

namespace benchwarden::book {

/// `folder`/staged.db: attachments that were sent in and that no entry names yet. It is no part of
/// the book, whose attachments are never deleted; it is bounded, so that what nobody names cannot
/// fill the disk. Safe from many threads.
class StagedAttachments {
 public:
  static constexpr std::int64_t kCountMax = 20;
  static constexpr std::int64_t kBytesMax = 50'000'000;
  static constexpr std::int64_t kKeptForMs = base::kDayMs;

  /// Drops what has waited longer than `kKeptForMs`.
  static base::Result<std::unique_ptr<StagedAttachments>> open(const std::filesystem::path& folder,
                                                               const base::Clock& clock);

  /// Durable when it returns; the time starts anew. True: it was there already. kUnavailable: too
  /// much waits, or the disk fails.
  base::Result<bool> keep(const base::Sha256Digest& digest, const std::string& bytes);
  base::Result<bool> has(const base::Sha256Digest& digest);
  /// kNotFound; kDamaged when the bytes do not match their digest.
  base::Result<std::string> read(const base::Sha256Digest& digest);
  /// After the book has taken it over. What fails here goes by age.
  void drop(const base::Sha256Digest& digest);

 private:
  StagedAttachments(Connection connection, const base::Clock& clock)
      : connection_(std::move(connection)), clock_(clock) {}
  // With mutex_ held:
  base::Status<> drop_old();
  base::Result<bool> is_there(const base::Sha256Digest& digest);
  base::Status<> check_room(std::size_t more);

  std::mutex mutex_;
  Connection connection_;
  const base::Clock& clock_;
};

}  // namespace benchwarden::book
