// A calculation and its inputs, as texts.
#include "fuzz/drive_calculation.h"
#include "fuzz/targets.h"
#include "workshop/project_files.h"

namespace benchwarden::fuzz {

std::string calculate_fault(std::string_view input) {
  const Driven driven = drive_calculation(workshop::real_definitions(), input);
  return driven.fault.empty() ? "" : driven.calculation + ": " + driven.fault;
}

}  // namespace benchwarden::fuzz
