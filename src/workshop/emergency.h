#pragma once

#include <string>
#include <vector>

#include "base/data_file.h"
#include "base/toml.h"

namespace benchwarden::workshop {

/// reports/cautions/emergency.toml: what to do before anything else. A line may name attributes of
/// the site in braces.
struct EmergencySection {
  std::string title;
  std::vector<std::string> lines;
};
struct Emergency {
  std::string title;
  std::vector<EmergencySection> sections;
};

base::Result<Emergency, base::FileFaults> read_emergency(const base::DataFile& file);

}  // namespace benchwarden::workshop
