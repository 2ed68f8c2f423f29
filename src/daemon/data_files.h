#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/data_file.h"
#include "base/result.h"
#include "base/toml.h"

namespace benchwarden::daemon {

/// The data files the program works with: the embedded ones, or while developing the same paths
/// read from a folder. Owns what it read.
class DataFileSet {
 public:
  static DataFileSet embedded();
  /// Names the first file that cannot be read, and why.
  static base::Result<DataFileSet, base::FileFaults> from_folder(
      const std::filesystem::path& folder);

  [[nodiscard]] const base::DataFiles& all() const { return files_; }
  /// Only embedded files make reports for issue.
  [[nodiscard]] bool is_embedded() const { return owned_.empty(); }

 private:
  base::DataFiles files_;
  std::vector<std::unique_ptr<std::string>> owned_;  // stable addresses for the views above
};

}  // namespace benchwarden::daemon
