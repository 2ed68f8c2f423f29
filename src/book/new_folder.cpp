#include "book/new_folder.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <system_error>
#include <utility>

namespace benchwarden::book {
namespace {

base::Error cannot(const std::filesystem::path& path, const std::string& what, int error) {
  return {base::ErrorCode::kUnavailable,
          path.string() + " cannot be " + what + ": " + std::generic_category().message(error)};
}

base::Status<> sync(const std::filesystem::path& path) {
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);  // NOLINT(*-vararg)
  if (descriptor < 0) return cannot(path, "opened", errno);
  const int failed = ::fsync(descriptor) == 0 ? 0 : errno;
  ::close(descriptor);
  if (failed != 0) return cannot(path, "brought to the disk", failed);
  return base::Done{};
}

/// "/a/b" of "/a/b/", so that what is made beside it lies in "/a".
std::filesystem::path without_end(const std::filesystem::path& target) {
  const std::filesystem::path whole = std::filesystem::absolute(target).lexically_normal();
  return whole.has_filename() ? whole : whole.parent_path();
}

}  // namespace

base::Result<NewFolder> NewFolder::begin(const std::filesystem::path& target, Place place) {
  std::error_code failure;
  const bool there = std::filesystem::exists(target, failure);
  if (there && place == Place::kFree) {
    return base::Error{base::ErrorCode::kConflict,
                       target.string() + " is there already; a new folder is needed"};
  }
  if (there && (!std::filesystem::is_directory(target, failure) ||
                !std::filesystem::is_empty(target, failure) || failure)) {
    return base::Error{base::ErrorCode::kConflict,
                       target.string() +
                           " is there and is no empty folder; a new or an empty "
                           "folder is needed"};
  }
  std::filesystem::path whole = without_end(target);
  std::string name = whole.string() + ".partial-XXXXXX";
  if (::mkdtemp(name.data()) == nullptr) return cannot(name, "made", errno);
  return NewFolder(std::move(whole), name);
}

NewFolder::NewFolder(NewFolder&& other) noexcept
    : target_(std::move(other.target_)), path_(std::exchange(other.path_, {})) {}

NewFolder::~NewFolder() {
  std::error_code ignored;
  if (!path_.empty()) std::filesystem::remove_all(path_, ignored);
}

base::Status<> NewFolder::finish() {
  auto synced = bring_to_disk(path_);
  if (!synced) return synced;
  // Takes the place of an empty folder, and of nothing else.
  if (std::rename(path_.c_str(), target_.c_str()) != 0) return cannot(target_, "made", errno);
  path_.clear();
  return sync(target_.parent_path());
}

base::Status<> NewFolder::make(std::string_view name) const {
  std::error_code failure;
  std::filesystem::create_directory(path_ / name, failure);
  if (failure) return cannot(path_ / name, "made", failure.value());
  return base::Done{};
}

base::Status<> make_folders(const std::filesystem::path& folder) {
  std::error_code failure;
  if (std::filesystem::is_directory(folder, failure)) return base::Done{};
  const std::filesystem::path whole = without_end(folder);
  const std::filesystem::path above = whole.parent_path();
  if (above != whole) {
    auto made = make_folders(above);
    if (!made) return made;
  }
  std::filesystem::create_directory(whole, failure);
  if (failure) return cannot(whole, "made", failure.value());
  // One that may be written to and not read cannot be synced; a book can stand in it all the same.
  static_cast<void>(sync(above).ok());
  return base::Done{};
}

base::Status<> bring_to_disk(const std::filesystem::path& folder) {
  std::error_code failure;
  for (const auto& item : std::filesystem::recursive_directory_iterator(folder, failure)) {
    auto synced = sync(item.path());
    if (!synced) return synced;
  }
  if (failure) return cannot(folder, "read", failure.value());
  return sync(folder);
}

NewFile::NewFile(const std::filesystem::path& path) : path_(path), stream_(path, std::ios::binary) {
  look();
}

void NewFile::look() {
  if (!stream_ && error_ == 0) error_ = errno == 0 ? EIO : errno;
}

void NewFile::add(std::string_view bytes) {
  stream_.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  look();
}

base::Status<> NewFile::finish() {
  stream_.close();
  look();
  if (error_ != 0) return cannot(path_, "written", error_);
  return base::Done{};
}

}  // namespace benchwarden::book
