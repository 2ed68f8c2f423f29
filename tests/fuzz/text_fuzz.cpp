// Entries of libFuzzer for files that a workshop may change: rule packs, or with FUZZ_REGISTER
// files of the register. DEVELOPERS.md tells how to build and run them.
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "fuzz/drive_text.h"
#include "workshop/form_entries.h"

namespace {

using namespace benchwarden;

/// A book in which something of every kind happened.
const workshop::TestWorkshop& busy_workshop() {
  static workshop::TestWorkshop workshop;
  static const bool filled = [] {
    workshop::FormEntries(workshop, 1).send(300);
    return true;
  }();
  static_cast<void>(filled);
  return workshop;
}

std::string driven(std::string_view text) {
  const workshop::Ports& ports = busy_workshop().ports();
#ifdef FUZZ_REGISTER
  return fuzz::drive_register(ports, text);
#else
  static const tallies::State state = *ports.live.view();
  static const rules::Scene scene(state, ports.clock.now(), workshop::zone_of(state));
  return fuzz::drive_pack(scene, text);
#endif
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string fault = driven({reinterpret_cast<const char*>(data), size});
  if (!fault.empty()) {
    std::fprintf(stderr, "%s\n", fault.c_str());
    std::abort();
  }
  return 0;
}
