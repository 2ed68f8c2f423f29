#include "access/private_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <string_view>
#include <system_error>
#include <utility>

namespace benchwarden::access {
namespace {

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  Descriptor& operator=(Descriptor&&) = delete;
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  [[nodiscard]] int number() const { return number_; }
  [[nodiscard]] bool open() const { return number_ >= 0; }

 private:
  int number_;
};

base::Error failed(const std::filesystem::path& file, base::ErrorCode code) {
  return base::Error{code, file.string() + ": " + std::generic_category().message(errno)};
}

base::Status<> narrow(const Descriptor& descriptor, const std::filesystem::path& file) {
  struct stat facts {};
  if (::fstat(descriptor.number(), &facts) != 0) {
    return failed(file, base::ErrorCode::kUnavailable);
  }
  if (!S_ISREG(facts.st_mode)) {
    return base::Error{base::ErrorCode::kInvalid, file.string() + ": not a regular file"};
  }
  if ((facts.st_mode & 07777U) != 0600U && ::fchmod(descriptor.number(), 0600) != 0) {
    return failed(file, base::ErrorCode::kUnavailable);
  }
  return base::Done{};
}

bool write_all(const Descriptor& descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor.number(), bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

base::Status<> synced_folder_of(const std::filesystem::path& file) {
  const Descriptor descriptor(
      ::open(file.parent_path().c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (descriptor.open() && ::fsync(descriptor.number()) == 0) return base::Done{};
  return failed(file, base::ErrorCode::kUnavailable);
}

/// All bytes durably under another name beside `file`; gives that name.
base::Result<std::filesystem::path> write_draft(const std::filesystem::path& file,
                                                std::string_view bytes) {
  std::filesystem::path draft =
      file.string() + ".new-" + std::to_string(static_cast<long long>(::getpid()));
  const Descriptor descriptor(
      ::open(draft.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, 0600));
  if (!descriptor.open()) return failed(draft, base::ErrorCode::kUnavailable);
  const auto narrowed = narrow(descriptor, draft);
  if (!narrowed) return narrowed.error();
  if (write_all(descriptor, bytes) && ::fsync(descriptor.number()) == 0) return draft;
  auto error = failed(draft, base::ErrorCode::kUnavailable);
  ::unlink(draft.c_str());
  return error;
}

}  // namespace

base::Status<> make_private_file(const std::filesystem::path& file) {
  const Descriptor descriptor(
      ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK, 0600));
  if (!descriptor.open()) {
    return failed(file, errno == ELOOP ? base::ErrorCode::kInvalid : base::ErrorCode::kUnavailable);
  }
  return narrow(descriptor, file);
}

base::Status<> write_private_file(const std::filesystem::path& file, std::string_view bytes) {
  const auto draft = write_draft(file, bytes);
  if (!draft) return draft.error();
  // link, not rename: of two processes that start at once, only one may set the content.
  const bool linked = ::link(draft->c_str(), file.c_str()) == 0;
  const auto error =
      failed(file, errno == EEXIST ? base::ErrorCode::kConflict : base::ErrorCode::kUnavailable);
  ::unlink(draft->c_str());
  if (!linked) return error;
  return synced_folder_of(file);
}

base::Status<> replace_private_file(const std::filesystem::path& file, std::string_view bytes) {
  const auto draft = write_draft(file, bytes);
  if (!draft) return draft.error();
  if (::rename(draft->c_str(), file.c_str()) != 0) {
    auto error = failed(file, base::ErrorCode::kUnavailable);
    ::unlink(draft->c_str());
    return error;
  }
  return synced_folder_of(file);
}

base::Result<std::string> read_private_file(const std::filesystem::path& file,
                                            std::size_t size_max) {
  const Descriptor descriptor(::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK));
  if (!descriptor.open()) {
    return failed(file,
                  errno == ENOENT ? base::ErrorCode::kNotFound : base::ErrorCode::kUnavailable);
  }
  const auto narrowed = narrow(descriptor, file);
  if (!narrowed) return narrowed.error();
  std::string bytes(size_max + 1, '\0');
  std::size_t size = 0;
  while (size < bytes.size()) {
    const ssize_t got = ::read(descriptor.number(), bytes.data() + size, bytes.size() - size);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return failed(file, base::ErrorCode::kUnavailable);
    if (got == 0) break;
    size += static_cast<std::size_t>(got);
  }
  if (size > size_max) {
    return base::Error{base::ErrorCode::kInvalid, file.string() + ": longer than expected"};
  }
  bytes.resize(size);
  return bytes;
}

}  // namespace benchwarden::access
