#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace benchwarden::daemon {

/// What the system says of this process (proc(5)); none where it does not.
struct OwnProcess {
  std::optional<std::uint64_t> resident_bytes;
  std::optional<std::uint64_t> threads;
  std::optional<std::uint64_t> open_files;
  std::optional<std::uint64_t> open_files_max;
  std::string system;  ///< "Linux 6.1.0 x86_64"
};
OwnProcess own_process();

}  // namespace benchwarden::daemon
