#include "forms/catalog.h"

#include <algorithm>

#include "forms/check_definition.h"
#include "forms/read_definition.h"

namespace benchwarden::forms {
namespace {

constexpr std::string_view kFolder = "forms/definitions/";

void read_file(const base::DataFile& file, std::vector<Definition>& definitions,
               base::FileFaults& faults) {
  const auto toml = base::parse_toml(file.bytes, file.path);
  if (!toml) {
    faults.insert(faults.end(), toml.error().begin(), toml.error().end());
    return;
  }
  // What could not be read is not checked further: one slip would bring a swarm of faults.
  const std::size_t before = faults.size();
  Definition definition = read_definition(*toml, file.path, faults);
  if (faults.size() != before) return;
  check_definition(definition, faults);
  check_effects(definition, faults);
  definitions.push_back(std::move(definition));
}

}  // namespace

base::Result<Catalog, base::FileFaults> Catalog::load(const base::DataFiles& files) {
  Catalog catalog;
  base::FileFaults faults;
  for (const base::DataFile& file : files) {
    if (file.path.starts_with(kFolder)) read_file(file, catalog.definitions_, faults);
  }
  if (catalog.definitions_.empty() && faults.empty()) {
    faults.push_back({std::string(kFolder), 0, "no definition was found"});
  }
  std::sort(catalog.definitions_.begin(), catalog.definitions_.end(),
            [](const Definition& a, const Definition& b) { return a.kind < b.kind; });
  check_together(catalog.definitions_, faults);
  if (!faults.empty()) return faults;
  for (const Definition& definition : catalog.definitions_) {
    for (const FieldDefinition& field : definition.fields) {
      catalog.meanings_.try_emplace(field.name, entries::FieldMeaning{field.type, field.unit});
      for (const FieldDefinition& column : field.columns) {
        catalog.meanings_.try_emplace(column.name, entries::FieldMeaning{column.type, column.unit});
      }
    }
  }
  return catalog;
}

const Definition* Catalog::find(std::string_view kind) const {
  const auto found = std::lower_bound(
      definitions_.begin(), definitions_.end(), kind,
      [](const Definition& one, std::string_view name) { return one.kind < name; });
  return found == definitions_.end() || found->kind != kind ? nullptr : &*found;
}

std::string_view Catalog::label_of(std::string_view field, std::string_view code) const {
  const auto label = [&](const FieldDefinition& one) -> const std::string* {
    if (one.name != field) return nullptr;
    const auto found = std::find_if(one.options.begin(), one.options.end(),
                                    [&](const CodeOption& option) { return option.code == code; });
    return found == one.options.end() ? nullptr : &found->label;
  };
  for (const Definition& definition : definitions_) {
    for (const FieldDefinition& one : definition.fields) {
      if (const auto* found = label(one)) return *found;
      for (const FieldDefinition& column : one.columns) {
        if (const auto* found = label(column)) return *found;
      }
    }
  }
  return code;
}

std::optional<entries::FieldMeaning> Catalog::meaning(std::string_view field) const {
  const auto found = meanings_.find(field);
  return found == meanings_.end() ? std::nullopt : std::optional(found->second);
}

}  // namespace benchwarden::forms
