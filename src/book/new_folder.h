#pragma once

#include <filesystem>
#include <fstream>
#include <string_view>

#include "base/result.h"

namespace benchwarden::book {

/// A folder that is made under another name beside its place, and takes its place whole or not at
/// all. Removed when it is given up before `finish`.
class NewFolder {
 public:
  enum class Place { kFree, kFreeOrEmpty };  ///< whether an empty folder may stand there
  /// kConflict: `target` is there already; kUnavailable: nothing can be made beside it.
  static base::Result<NewFolder> begin(const std::filesystem::path& target, Place place);
  NewFolder(NewFolder&& other) noexcept;
  NewFolder& operator=(NewFolder&&) = delete;
  NewFolder(const NewFolder&) = delete;
  NewFolder& operator=(const NewFolder&) = delete;
  ~NewFolder();

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  /// A folder in it. kUnavailable.
  base::Status<> make(std::string_view name) const;
  /// Everything in it is on the disk and stands under the target's name when this returns.
  base::Status<> finish();

 private:
  NewFolder(std::filesystem::path target, std::filesystem::path path)
      : target_(std::move(target)), path_(std::move(path)) {}

  std::filesystem::path target_;
  std::filesystem::path path_;  ///< "" once it has taken its place
};

/// `folder`, and what is missing of the folders that it stands in, is there when this returns, and
/// on the disk where the folder above can be read. kUnavailable.
base::Status<> make_folders(const std::filesystem::path& folder);

/// Everything in `folder`, and that it is there, is on the disk when this returns.
base::Status<> bring_to_disk(const std::filesystem::path& folder);

/// A file that is written from its beginning to its end.
class NewFile {
 public:
  explicit NewFile(const std::filesystem::path& path);
  void add(std::string_view bytes);
  /// Whether all that was added could be written so far.
  [[nodiscard]] bool good() const { return error_ == 0; }
  /// kUnavailable, naming it, when anything of it could not be written.
  base::Status<> finish();

 private:
  /// Takes down why the stream failed, when it first does.
  void look();

  std::filesystem::path path_;
  std::ofstream stream_;
  int error_ = 0;
};

}  // namespace benchwarden::book
