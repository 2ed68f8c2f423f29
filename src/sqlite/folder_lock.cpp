#include "sqlite/folder_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <string>
#include <system_error>
#include <utility>

namespace benchwarden::sqlite {
namespace {

constexpr int kNone = -1;

base::Error unavailable(const std::filesystem::path& folder, const std::string& why) {
  return {base::ErrorCode::kUnavailable, "data folder " + folder.string() + ": " + why};
}

}  // namespace

base::Result<FolderLock> FolderLock::take(const std::filesystem::path& folder) {
  const std::string path = (folder / "lock").string();
  // Close-on-exec: a program we start must not hold the lock after we are gone.
  const int descriptor = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (descriptor < 0) {
    return unavailable(folder,
                       "cannot open its lock file: " + std::generic_category().message(errno));
  }
  if (::flock(descriptor, LOCK_EX | LOCK_NB) != 0) {
    const int reason = errno;
    ::close(descriptor);
    if (reason == EWOULDBLOCK) return unavailable(folder, "in use by another process");
    return unavailable(folder, "cannot be locked: " + std::generic_category().message(reason));
  }
  return FolderLock(descriptor);
}

FolderLock::FolderLock(FolderLock&& other) noexcept
    : descriptor_(std::exchange(other.descriptor_, kNone)) {}

FolderLock::~FolderLock() {
  if (descriptor_ != kNone) ::close(descriptor_);
}

}  // namespace benchwarden::sqlite
