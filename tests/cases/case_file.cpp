#include "cases/case_file.h"

#include <algorithm>
#include <utility>

#include "workshop/filed_value.h"

namespace benchwarden::cases {
namespace {

base::JsonObject members_of(const base::Toml& table, const forms::Catalog& catalog) {
  base::JsonObject members;
  for (const auto& [name, value] : table.members) {
    members.emplace_back(name, workshop::filed_value(value, name, catalog));
  }
  return members;
}

/// A thing under care, entered before everything else: [[thing]] as in a file of the register.
CaseEntry read_thing(const base::Toml& table, const std::string& opened,
                     const forms::Catalog& catalog) {
  CaseEntry entry;
  entry.kind = "register-change";
  entry.occurred_at = entry.recorded_at = opened;
  entry.by = "manager";
  entry.line = table.line;
  entry.fields = {{"act", "added"}};
  for (auto& [name, value] : members_of(table, catalog)) {
    if (name == "confirmed") {
      entry.confirmed = *value.array();
      continue;
    }
    const std::string field = name == "class" ? "thing_class" : name == "id" ? "thing" : name;
    entry.fields.emplace_back(field, std::move(value));
  }
  return entry;
}

CaseEntry read_entry(const base::Toml& table, const std::string& file,
                     const forms::Catalog& catalog, base::FileFaults& faults) {
  base::TomlReader reader(table, file, faults);
  CaseEntry entry;
  entry.line = table.line;
  entry.name = reader.text_or("name", "");
  entry.kind = reader.text_or("kind", "");
  entry.raw = reader.text_or("raw", "");
  entry.occurred_at = reader.text("at");
  entry.recorded_at = reader.text_or("recorded", entry.occurred_at);
  entry.by = reader.text_or("by", "manager");
  entry.device = reader.text_or("device", "");
  entry.person = reader.text_or("person", "");
  entry.corrects = reader.text_or("corrects", "");
  entry.reason = reader.text_or("reason", "");
  entry.refused = reader.texts("refused");
  for (const std::string& name : reader.texts("confirmed")) entry.confirmed.emplace_back(name);
  if (const base::Toml* fields = reader.table("fields")) {
    entry.fields = members_of(*fields, catalog);
  }
  reader.finish();
  return entry;
}

std::optional<std::vector<std::string>> maybe_texts(base::TomlReader& reader,
                                                    const base::Toml& table,
                                                    std::string_view name) {
  std::vector<std::string> texts = reader.texts(name);
  if (!table.members.contains(name)) return std::nullopt;
  return texts;
}

Look read_look(const base::Toml& table, const std::string& file, base::FileFaults& faults) {
  base::TomlReader reader(table, file, faults);
  Look look;
  look.line = table.line;
  look.at = reader.text("at");
  look.as_of = reader.text_or("as_of", "");
  look.known = reader.text_or("known", "");
  look.findings = maybe_texts(reader, table, "findings");
  look.due = maybe_texts(reader, table, "due");
  look.advice = maybe_texts(reader, table, "advice");
  look.retained = maybe_texts(reader, table, "retained");
  look.levels = maybe_texts(reader, table, "levels");
  if (const base::Toml* month = reader.table("month")) {
    base::TomlReader totals(*month, file, faults);
    look.month = MonthTotals{totals.text("month"), totals.texts("lines")};
    totals.finish();
  }
  reader.finish();
  return look;
}

int line_of(const std::variant<CaseEntry, Look>& step) {
  return std::visit([](const auto& one) { return one.line; }, step);
}

}  // namespace

base::Result<CaseFile, base::FileFaults> read_case(const std::string& text, const std::string& file,
                                                   const forms::Catalog& catalog) {
  const auto toml = base::parse_toml(text, file);
  if (!toml) return toml.error();
  base::FileFaults faults;
  base::TomlReader reader(*toml, file, faults);
  CaseFile read;
  read.file = file;
  read.title = reader.text("title");
  read.source = reader.text("source");
  read.pack = reader.text_or("pack", "");
  read.rules = reader.texts("rules");
  const std::string opened = reader.text_or("opened", "2020-01-06T08:00:00Z");
  for (const base::Toml* table : reader.tables("thing")) {
    read.steps.emplace_back(read_thing(*table, opened, catalog));
  }
  for (const base::Toml* table : reader.tables("entry")) {
    read.steps.emplace_back(read_entry(*table, file, catalog, faults));
  }
  for (const base::Toml* table : reader.tables("look")) {
    read.steps.emplace_back(read_look(*table, file, faults));
  }
  reader.finish();
  if (!faults.empty()) return faults;
  std::stable_sort(read.steps.begin(), read.steps.end(),
                   [](const auto& a, const auto& b) { return line_of(a) < line_of(b); });
  return read;
}

}  // namespace benchwarden::cases
