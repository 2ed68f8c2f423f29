#include "workshop/export_wording.h"

#include "forms/envelope_columns.h"
#include "forms/type_names.h"

namespace benchwarden::workshop {
namespace {

/// One text for each of `names`.
std::map<std::string, std::string> read_texts(const base::Toml* table,
                                              const std::vector<std::string_view>& names,
                                              base::TomlReader& above, base::FileFaults& faults) {
  std::map<std::string, std::string> texts;
  if (table == nullptr) {
    above.fault("[columns] and [types] are needed");
    return texts;
  }
  base::TomlReader reader(*table, above.file(), faults);
  for (const std::string_view name : names) texts.emplace(name, reader.text(name));
  reader.finish();
  return texts;
}

}  // namespace

base::Result<ExportWording, base::FileFaults> read_export_wording(const base::DataFile& file) {
  const auto table = base::parse_toml(file.bytes, file.path);
  if (!table) return table.error();
  base::FileFaults faults;
  base::TomlReader reader(*table, file.path, faults);
  const auto& columns = forms::kEnvelopeColumns;
  std::vector<std::string_view> types;
  for (const auto& [name, type] : forms::kTypeNames) types.push_back(name);
  ExportWording wording;
  wording.about = reader.texts("about");
  wording.all_tables = reader.text("all_tables");
  wording.of_retired = reader.text("of_retired");
  wording.columns =
      read_texts(reader.table("columns"), {columns.begin(), columns.end()}, reader, faults);
  wording.types = read_texts(reader.table("types"), types, reader, faults);
  reader.finish();
  if (!faults.empty()) return faults;
  return wording;
}

}  // namespace benchwarden::workshop
