#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <string>
#include <system_error>

namespace benchwarden::testing {

/// A folder of the test's own, gone with the object. In memory where the system has such a place:
/// what these tests end is a process, never the power, and memory outlives a process as a disk
/// does.
class TemporaryFolder {
 public:
  TemporaryFolder() {
    const bool in_memory = ::access("/dev/shm", W_OK) == 0;
    const std::filesystem::path parent =
        in_memory ? std::filesystem::path("/dev/shm") : std::filesystem::temp_directory_path();
    std::string name = (parent / "benchwarden-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) ADD_FAILURE() << "no temporary folder";
    path_ = name;
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace benchwarden::testing
