// Entry of libFuzzer; DEVELOPERS.md tells how to build and run it.
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "fuzz/drive_calculation.h"
#include "workshop/project_files.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace benchwarden;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const fuzz::Driven driven = fuzz::drive_calculation(workshop::real_definitions(), text);
  if (!driven.fault.empty()) {
    std::fprintf(stderr, "%s: %s\n", driven.calculation.c_str(), driven.fault.c_str());
    std::abort();
  }
  return 0;
}
