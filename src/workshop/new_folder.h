#pragma once

#include <filesystem>
#include <string_view>

#include "base/result.h"

namespace benchwarden::workshop {

/// A folder that is made under another name beside its place, and takes its place whole or not at
/// all. Removed when it is given up before `finish`.
class NewFolder {
 public:
  /// kConflict: `target` is there and is no empty folder; kUnavailable: nothing can be made beside
  /// it.
  static base::Result<NewFolder> begin(const std::filesystem::path& target);
  NewFolder(NewFolder&& other) noexcept;
  NewFolder& operator=(NewFolder&&) = delete;
  NewFolder(const NewFolder&) = delete;
  NewFolder& operator=(const NewFolder&) = delete;
  ~NewFolder();

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  /// Everything in it is on the disk and stands under the target's name when this returns.
  base::Status<> finish();

 private:
  NewFolder(std::filesystem::path target, std::filesystem::path path)
      : target_(std::move(target)), path_(std::move(path)) {}

  std::filesystem::path target_;
  std::filesystem::path path_;  ///< "" once it has taken its place
};

/// A new file with these bytes. kUnavailable, naming it.
base::Status<> write_new_file(const std::filesystem::path& file, std::string_view bytes);

}  // namespace benchwarden::workshop
