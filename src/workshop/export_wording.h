#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/data_file.h"
#include "base/toml.h"

namespace benchwarden::workshop {

/// forms/wording/export.toml: the words of README.txt in an export.
struct ExportWording {
  std::vector<std::string> about;              ///< lines
  std::string all_tables;                      ///< heading of the columns all tables have
  std::string of_retired;                      ///< said of a field that is only read
  std::map<std::string, std::string> columns;  ///< by the names of forms::kEnvelopeColumns
  std::map<std::string, std::string> types;    ///< by the type's name in a form
};

/// Faults: a column or type without its words, and words without either.
base::Result<ExportWording, base::FileFaults> read_export_wording(const base::DataFile& file);

}  // namespace benchwarden::workshop
