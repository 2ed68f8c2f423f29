// The program of libFuzzer: BENCHWARDEN_FUZZ names what it drives. tests/fuzz/run.sh runs them all.
#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "fuzz/targets.h"

namespace {

using namespace benchwarden::fuzz;

struct Target {
  std::string_view name;
  std::string (*fault)(std::string_view);
};

constexpr std::array<Target, 11> kTargets{{
    {"book", book_fault},
    {"calculate", calculate_fault},
    {"data_file", data_file_fault},
    {"export", export_fault},
    {"form", form_fault},
    {"http", http_fault},
    {"json", json_fault},
    {"leaf", leaf_fault},
    {"pack", pack_fault},
    {"register", register_fault},
    {"seal", seal_fault},
}};

const Target& chosen() {
  const char* const name = std::getenv("BENCHWARDEN_FUZZ");
  const auto* const found = std::find_if(kTargets.begin(), kTargets.end(), [&](const Target& one) {
    return name != nullptr && one.name == name;
  });
  if (found != kTargets.end()) return *found;
  std::fprintf(stderr, "BENCHWARDEN_FUZZ must be one of:");
  for (const Target& one : kTargets) std::fprintf(stderr, " %s", one.name.data());
  std::fprintf(stderr, "\n");
  std::exit(2);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Target& target = chosen();
  const std::string fault = target.fault({reinterpret_cast<const char*>(data), size});
  if (!fault.empty()) {
    std::fprintf(stderr, "fault: %s\n", fault.c_str());
    std::abort();
  }
  return 0;
}
