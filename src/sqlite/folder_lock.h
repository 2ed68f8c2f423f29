#pragma once

#include <filesystem>

#include "base/result.h"

namespace benchwarden::sqlite {

/// One process at a time owns a data folder: an flock on `folder`/lock, given up when the process
/// ends in whatever way. The file itself stays; that it is there means nothing.
class FolderLock {
 public:
  /// kUnavailable, naming the folder, while another holds it or when it cannot be written.
  static base::Result<FolderLock> take(const std::filesystem::path& folder);
  FolderLock(FolderLock&& other) noexcept;
  FolderLock& operator=(FolderLock&&) = delete;
  FolderLock(const FolderLock&) = delete;
  FolderLock& operator=(const FolderLock&) = delete;
  ~FolderLock();

 private:
  explicit FolderLock(int descriptor) : descriptor_(descriptor) {}
  int descriptor_;
};

}  // namespace benchwarden::sqlite
