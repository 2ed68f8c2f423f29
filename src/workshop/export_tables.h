#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "base/result.h"
#include "book/new_folder.h"
#include "entries/entry.h"
#include "forms/catalog.h"

namespace benchwarden::workshop {

/// The line of an entry in a table with these columns, those of forms::kEnvelopeColumns first.
std::string table_line(const entries::Entry& entry, const std::vector<std::string>& columns);
/// The line above all others.
std::string heading_line(const std::vector<std::string>& columns);

/// One CSV file (RFC 4180) a kind of entry, with the columns of forms::csv_columns. A list stands
/// in one column as JSON. What a spreadsheet would run as a formula gets a leading apostrophe.
class ExportTables {
 public:
  /// Begins a file with its heading line for every kind.
  ExportTables(const std::filesystem::path& folder, const forms::Catalog& catalog);
  /// kDamaged: of a kind that no form defines.
  base::Status<> add(const entries::Entry& entry);
  /// kUnavailable when anything could not be written.
  base::Status<> finish();

 private:
  struct Table {
    const forms::Definition& definition;
    book::NewFile file;
  };
  std::map<std::string, Table, std::less<>> tables_;
};

}  // namespace benchwarden::workshop
