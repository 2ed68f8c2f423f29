#include "workshop/export_tables.h"

#include <utility>
#include <vector>

#include "entries/leaf.h"
#include "forms/envelope_columns.h"
#include "forms/schema.h"
#include "print/csv_field.h"

namespace benchwarden::workshop {
namespace {

std::string cell_of(const base::Json* value) {
  if (value == nullptr || value->is_null()) return "";
  if (const std::string* text = value->string()) return *text;
  return base::write_json(*value);
}

std::string line_of(const std::vector<std::string>& cells) {
  return print::csv_line({cells.begin(), cells.end()});
}

}  // namespace

base::Result<ExportTables> ExportTables::begin(const std::filesystem::path& folder,
                                               const forms::Catalog& catalog) {
  ExportTables tables;
  for (const forms::Definition& definition : catalog.definitions()) {
    Table& table = tables.tables_[definition.kind];
    table.definition = &definition;
    table.stream.open(folder / (definition.kind + ".csv"), std::ios::binary);
    table.stream << line_of(forms::csv_columns(definition));
    if (!table.stream) {
      return base::Error{base::ErrorCode::kUnavailable,
                         definition.kind + ".csv cannot be written in " + folder.string()};
    }
  }
  return tables;
}

base::Status<> ExportTables::add(const entries::Entry& entry) {
  const auto found = tables_.find(entry.content.kind);
  if (found == tables_.end()) {
    return base::Error{base::ErrorCode::kDamaged, "entry " + std::to_string(entry.seq) +
                                                      " is of no known kind: '" +
                                                      entry.content.kind + "'"};
  }
  const base::Json json = entries::entry_json(entry);
  const base::Json& fields = *json.find("fields");
  const std::vector<std::string> columns = forms::csv_columns(*found->second.definition);
  std::vector<std::string> cells;
  for (const std::string& column : columns) {
    const bool envelope = cells.size() < forms::kEnvelopeColumns.size();
    cells.push_back(cell_of(envelope ? json.find(column) : fields.find(column)));
  }
  found->second.stream << line_of(cells);
  return base::Done{};
}

base::Status<> ExportTables::finish() {
  for (auto& [kind, table] : tables_) {
    table.stream.close();
    if (!table.stream) {
      return base::Error{base::ErrorCode::kUnavailable, kind + ".csv cannot be written"};
    }
  }
  return base::Done{};
}

}  // namespace benchwarden::workshop
