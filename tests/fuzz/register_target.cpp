// A file of things under care. A dry run records nothing, and a fault is a sentence about a line
// of the file.
#include <algorithm>

#include "fuzz/busy_workshop.h"
#include "fuzz/targets.h"
#include "workshop/register_import.h"

namespace benchwarden::fuzz {
namespace {

using workshop::ImportMode;

std::string fault_of(const workshop::ImportFaults& faults, std::string_view text) {
  if (faults.empty()) return "refused without a fault";
  const auto lines = 1 + std::count(text.begin(), text.end(), '\n');
  for (const workshop::ImportFault& fault : faults) {
    if (fault.sentence.empty() || fault.code.empty()) return "a fault without a sentence";
    if (fault.line < 0 || fault.line > lines) return "a fault in no line of the file";
    if (workshop::format_import_fault("fuzz.toml", fault).empty()) return "a fault without words";
  }
  return "";
}

}  // namespace

std::string register_fault(std::string_view input) {
  const workshop::Ports& ports = busy_workshop().ports();
  const std::uint64_t size = ports.book.head().size;
  const auto outcome =
      workshop::import_register(ports, workshop::kManager, input, ImportMode::kDryRun);
  if (ports.book.head().size != size) return "a dry run recorded something";
  if (const auto* error = std::get_if<base::Error>(&outcome)) return error->detail;
  if (const auto* faults = std::get_if<workshop::ImportFaults>(&outcome)) {
    return fault_of(*faults, input);
  }
  for (const auto& thing : *std::get_if<std::vector<workshop::ImportedThing>>(&outcome)) {
    if (thing.thing_class.empty() || thing.thing.empty()) return "a thing without a name";
  }
  return "";
}

}  // namespace benchwarden::fuzz
