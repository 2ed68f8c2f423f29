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

/// Before any thread is started. The C library would spread the threads over eight heaps for each
/// core, and each of them grows to what its largest request took and stays so: measured on two
/// cores, 118 MB after six minutes of mixed load and still growing, with two heaps 51 MB.
void share_heaps();
/// What was freed since goes back to the system, where it would stay with the heaps.
void give_back_memory();

}  // namespace benchwarden::daemon
