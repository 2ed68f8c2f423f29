#pragma once

#include <string>
#include <string_view>

#include "workshop/definitions.h"

namespace benchwarden::fuzz {

/// What one run was, and what was wrong with it; "" when nothing was.
struct Driven {
  std::string calculation;
  bool answered = false;  ///< with results; else refused
  std::string fault;
};

/// Calculates what `text` asks for: the name of a calculation in the first line (any other words
/// there stand for one all the same), then "name=value" in each line. Whatever comes in, results
/// are finite and can be written and read as JSON, and refusals are sentences about something that
/// has a label.
Driven drive_calculation(const workshop::Definitions& definitions, std::string_view text);

}  // namespace benchwarden::fuzz
