#include "daemon/own_process.h"

#include <malloc.h>
#include <sys/resource.h>
#include <sys/utsname.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string_view>
#include <system_error>

#include "base/text.h"

namespace benchwarden::daemon {
namespace {

/// "VmRSS:    25860 kB" and "Threads:  7" of /proc/self/status.
std::optional<std::uint64_t> status_number(std::string_view name) {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);) {
    if (!line.starts_with(name)) continue;
    const std::size_t first = line.find_first_of("0123456789");
    if (first == std::string::npos) return std::nullopt;
    const std::size_t end = line.find_first_not_of("0123456789", first);
    return base::whole_number(line.substr(first, end - first));
  }
  return std::nullopt;
}

std::optional<std::uint64_t> count_open_files() {
  std::error_code failure;
  std::filesystem::directory_iterator files("/proc/self/fd", failure);
  if (failure) return std::nullopt;
  std::uint64_t count = 0;
  for (const std::filesystem::directory_iterator end; files != end && !failure;
       files.increment(failure)) {
    ++count;
  }
  return count - 1;  // one is open to count them
}

}  // namespace

OwnProcess own_process() {
  OwnProcess own;
  if (const auto kilobytes = status_number("VmRSS:")) own.resident_bytes = *kilobytes * 1024;
  own.threads = status_number("Threads:");
  own.open_files = count_open_files();
  rlimit limit{};
  if (::getrlimit(RLIMIT_NOFILE, &limit) == 0) own.open_files_max = limit.rlim_cur;
  utsname name{};
  if (::uname(&name) == 0) {
    own.system = std::string(name.sysname) + " " + name.release + " " + name.machine;
  }
  return own;
}

void share_heaps() {
  constexpr int kHeaps = 2;
  ::mallopt(M_ARENA_MAX, kHeaps);
}

void give_back_memory() { ::malloc_trim(0); }

}  // namespace benchwarden::daemon
