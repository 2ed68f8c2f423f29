#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace benchwarden::base {

/// A file of forms/ or reports/, embedded in the executable or read from disk while developing.
struct DataFile {
  std::string path;  ///< from the top of the project, e.g. "forms/definitions/oil-drained.toml"
  std::string_view bytes;
};

using DataFiles = std::vector<DataFile>;

}  // namespace benchwarden::base
