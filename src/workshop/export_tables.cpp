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

}  // namespace

std::string heading_line(const std::vector<std::string>& columns) {
  return print::csv_line({columns.begin(), columns.end()});
}

std::string table_line(const entries::Entry& entry, const std::vector<std::string>& columns) {
  const base::Json json = entries::entry_json(entry);
  const base::Json& fields = *json.find("fields");
  std::vector<std::string> cells;
  for (const std::string& column : columns) {
    const bool envelope = cells.size() < forms::kEnvelopeColumns.size();
    cells.push_back(cell_of(envelope ? json.find(column) : fields.find(column)));
  }
  return print::csv_line({cells.begin(), cells.end()});
}

ExportTables::ExportTables(const std::filesystem::path& folder, const forms::Catalog& catalog) {
  for (const forms::Definition& definition : catalog.definitions()) {
    const std::string& kind = definition.kind;
    const auto [table, added] =
        tables_.try_emplace(kind, Table{definition, book::NewFile(folder / (kind + ".csv"))});
    table->second.file.add(heading_line(forms::csv_columns(definition)));
  }
}

base::Status<> ExportTables::add(const entries::Entry& entry) {
  const auto found = tables_.find(entry.content.kind);
  if (found == tables_.end()) {
    return base::Error{base::ErrorCode::kDamaged, "entry " + std::to_string(entry.seq) +
                                                      " is of no known kind: '" +
                                                      entry.content.kind + "'"};
  }
  found->second.file.add(table_line(entry, forms::csv_columns(found->second.definition)));
  return base::Done{};
}

base::Status<> ExportTables::finish() {
  for (auto& [kind, table] : tables_) {
    auto finished = table.file.finish();
    if (!finished) return finished;
  }
  return base::Done{};
}

}  // namespace benchwarden::workshop
