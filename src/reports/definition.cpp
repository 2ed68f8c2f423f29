#include "reports/definition.h"

#include <algorithm>
#include <cassert>
#include <set>

#include "reports/known_sections.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kDefinitionFolder = "reports/definitions/";

std::string quoted(std::string_view name) { return "'" + std::string(name) + "'"; }

void check_columns(const SectionDefinition& section, const KnownSection& known,
                   base::TomlReader& reader) {
  std::set<std::string_view> seen;
  for (const std::string& column : section.columns) {
    if (std::find(known.columns.begin(), known.columns.end(), column) == known.columns.end()) {
      reader.fault("section " + quoted(section.id) + " has no column " + quoted(column));
    }
    if (!seen.insert(column).second) reader.fault("column " + quoted(column) + " stands twice");
  }
  if (section.columns.empty() != known.columns.empty()) {
    reader.fault("section " + quoted(section.id) +
                 (known.columns.empty() ? " has no columns to choose" : " must name its columns"));
  }
}

SectionDefinition read_section(const base::Toml& table, const std::string& report,
                               const std::string& path, base::FileFaults& faults) {
  base::TomlReader reader(table, path, faults);
  SectionDefinition section;
  section.id = reader.text("id");
  section.columns = reader.texts("columns");
  section.field_order = reader.texts("field_order");
  section.left_out = reader.texts("left_out");
  const KnownSection* known = find_section(report, section.id);
  if (known == nullptr) {
    reader.fault("report " + quoted(report) + " has no section " + quoted(section.id));
  } else {
    check_columns(section, *known, reader);
  }
  reader.finish();
  return section;
}

/// A report that leaves a part out would be another report.
void check_complete(const ReportDefinition& report, base::TomlReader& reader) {
  for (const KnownSection& known : known_sections()) {
    if (known.report != report.id) continue;
    const auto count =
        std::count_if(report.sections.begin(), report.sections.end(),
                      [&](const SectionDefinition& section) { return section.id == known.id; });
    if (count != 1) reader.fault("section " + quoted(known.id) + " must stand here once");
  }
}

void check_cautions(const ReportDefinition& report, const Cautions& cautions,
                    base::TomlReader& reader) {
  for (const std::string& id : report.cautions) {
    if (cautions.find(id) == nullptr) reader.fault("there is no caution " + quoted(id));
  }
  for (const Caution& caution : cautions.all()) {
    const bool named = std::count(caution.reports.begin(), caution.reports.end(), report.id) > 0;
    const bool printed = std::count(report.cautions.begin(), report.cautions.end(), caution.id) > 0;
    if (named != printed) {
      reader.fault("caution " + quoted(caution.id) +
                   " and this report must name each other, or neither");
    }
  }
}

ReportDefinition read_report(const base::Toml& table, const std::string& path,
                             const Cautions& cautions, base::FileFaults& faults) {
  base::TomlReader reader(table, path, faults);
  ReportDefinition report;
  report.id = reader.text("id");
  report.title = reader.text("title");
  report.cautions = reader.texts("cautions");
  for (const base::Toml* section : reader.tables("sections")) {
    report.sections.push_back(read_section(*section, report.id, path, faults));
  }
  if (path != std::string(kDefinitionFolder) + report.id + ".toml") {
    reader.fault("the file of a report is named after its id");
  }
  check_complete(report, reader);
  check_cautions(report, cautions, reader);
  reader.finish();
  return report;
}

bool holds(const std::vector<ReportDefinition>& reports, std::string_view id) {
  return std::any_of(reports.begin(), reports.end(),
                     [&](const ReportDefinition& report) { return report.id == id; });
}

}  // namespace

base::Result<ReportDefinitions, base::FileFaults> ReportDefinitions::load(
    const base::DataFiles& files, const Cautions& cautions) {
  base::FileFaults faults;
  ReportDefinitions definitions;
  for (const base::DataFile& file : files) {
    if (!file.path.starts_with(kDefinitionFolder)) continue;
    const auto parsed = base::parse_toml(file.bytes, file.path);
    if (!parsed) {
      faults.insert(faults.end(), parsed.error().begin(), parsed.error().end());
      continue;
    }
    definitions.all_.push_back(read_report(*parsed, file.path, cautions, faults));
  }
  std::set<std::string_view> wanted;
  for (const KnownSection& section : known_sections()) wanted.insert(section.report);
  for (const std::string_view id : wanted) {
    if (!holds(definitions.all_, id)) {
      faults.push_back(
          {std::string(kDefinitionFolder) + std::string(id) + ".toml", 0, "the report is missing"});
    }
  }
  if (!faults.empty()) return faults;
  return definitions;
}

const ReportDefinition* ReportDefinitions::find(std::string_view id) const {
  const auto found = std::find_if(all_.begin(), all_.end(),
                                  [&](const ReportDefinition& report) { return report.id == id; });
  return found == all_.end() ? nullptr : &*found;
}

const ReportDefinition& ReportDefinitions::get(std::string_view id) const {
  const ReportDefinition* found = find(id);
  assert(found != nullptr);
  return *found;
}

}  // namespace benchwarden::reports
