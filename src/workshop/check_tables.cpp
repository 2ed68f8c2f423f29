#include "workshop/check_tables.h"

#include <algorithm>
#include <string_view>

#include "book/export_files.h"
#include "forms/schema.h"
#include "workshop/export_tables.h"

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kLineEnd = "\r\n";

std::string table_path(const std::string& kind) {
  return std::string(book::kExportedTables) + "/" + kind + ".csv";
}

/// Their names hold neither commas nor quotes.
std::vector<std::string> columns_of(std::string_view heading) {
  std::vector<std::string> columns;
  for (std::size_t comma = 0; comma != std::string_view::npos;) {
    comma = heading.find(',');
    columns.emplace_back(heading.substr(0, comma));
    if (comma != std::string_view::npos) heading.remove_prefix(comma + 1);
  }
  return columns;
}

}  // namespace

TableChecks::TableChecks(const std::filesystem::path& export_folder,
                         const forms::Catalog& catalog) {
  for (const forms::Definition& definition : catalog.definitions()) {
    look_at(definition, export_folder);
  }
}

void TableChecks::look_at(const forms::Definition& definition,
                          const std::filesystem::path& export_folder) {
  const std::string path = table_path(definition.kind);
  auto bytes = book::read_exported(export_folder / path);
  if (!bytes) return;  // an older program knew fewer kinds: a fault where an entry is of it
  const std::vector<std::string> ours = forms::csv_columns(definition);
  Table table{*std::move(bytes), ours};
  if (!table.bytes.starts_with(heading_line(ours))) {
    table.columns = columns_of(std::string_view(table.bytes).substr(0, table.bytes.find(kLineEnd)));
    notes_.push_back("note: " + path + " has other columns than this program writes");
  }
  table.at = heading_line(table.columns).size();
  held_.insert(path);
  tables_.emplace(definition.kind, std::move(table));
}

void TableChecks::fault(const std::string& kind, Table& table, const std::string& reason) {
  table.is_faulty = true;
  faults_.push_back(table_path(kind) + ":" + std::to_string(table.line) + ": " + reason);
}

void TableChecks::take(const entries::Entry& entry) {
  const std::string& kind = entry.content.kind;
  const std::string number = "entry " + std::to_string(entry.seq);
  const auto [found, missing] = tables_.try_emplace(kind);
  Table& table = found->second;
  if (missing) fault(kind, table, "is missing; " + number + " stands in it");
  if (table.is_faulty) return;
  ++table.line;
  const std::string line = table_line(entry, table.columns);
  if (table.bytes.compare(std::min(table.at, table.bytes.size()), line.size(), line) != 0) {
    return fault(kind, table, "is not what " + number + " says");
  }
  table.at += line.size();
}

void TableChecks::finish() {
  for (auto& [kind, table] : tables_) {
    if (table.is_faulty || table.at == table.bytes.size()) continue;
    ++table.line;
    fault(kind, table, "is a line that no entry gives");
  }
}

}  // namespace benchwarden::workshop
