// A file of forms/ or reports/ with mistakes in it (edited_file.h). Every fault names a file, a
// line of it and a reason; what is read without a fault makes forms that can be shown.
#include <algorithm>
#include <iterator>

#include "forms/schema.h"
#include "fuzz/edited_file.h"
#include "fuzz/targets.h"
#include "workshop/project_files.h"

namespace benchwarden::fuzz {
namespace {

const std::vector<std::string>& all_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const base::DataFile& file : workshop::project_files()) all.push_back(file.path);
    return all;
  }();
  return names;
}

std::string fault_of(const base::FileFault& fault, const base::DataFiles& files) {
  const std::string told = base::format_faults({fault});
  if (fault.reason.empty()) return "no reason: " + told;
  const auto named = std::find_if(files.begin(), files.end(),
                                  [&](const auto& file) { return file.path == fault.file; });
  if (named == files.end()) return "of no file: " + told;
  const auto lines = 1 + std::count(named->bytes.begin(), named->bytes.end(), '\n');
  return fault.line < 0 || fault.line > lines ? "of no line: " + told : "";
}

std::string fault_of_forms(const forms::Catalog& catalog) {
  for (const forms::Definition& form : catalog.definitions()) {
    for (const base::Json& json : {forms::submission_schema(form), forms::fields_schema(form),
                                   forms::definition_json(form)}) {
      const auto read = base::parse_json(base::write_json(json), 40);
      if (!read) return form.kind + ": " + read.error().detail;
    }
  }
  return "";
}

/// The files beside it, without which it means nothing.
base::DataFiles family_of(std::string_view name, const base::DataFiles& files) {
  const std::string_view folder = name.substr(0, name.rfind('/') + 1);
  base::DataFiles family;
  std::copy_if(files.begin(), files.end(), std::back_inserter(family),
               [&](const auto& file) { return std::string_view(file.path).starts_with(folder); });
  return family;
}

template <class Loaded>
base::FileFaults faults_of(const Loaded& loaded) {
  return loaded ? base::FileFaults() : loaded.error();
}

/// What its own reader says; all of the files take much longer.
base::FileFaults first_faults(std::string_view name, const base::DataFiles& files) {
  const base::DataFiles family = family_of(name, files);
  if (name.starts_with("forms/definitions/")) return faults_of(forms::Catalog::load(family));
  if (name.starts_with("forms/calculations/")) {
    return faults_of(forms::CalculationForms::load(family));
  }
  if (name.starts_with("reports/rules/figures/")) return faults_of(rules::Figures::load(family));
  if (name.starts_with("reports/rules/packs/")) {
    for (const base::DataFile& file : family) {
      const auto pack = file.path == name ? faults_of(rules::read_pack(file.bytes, file.path))
                                          : base::FileFaults();
      if (!pack.empty()) return pack;
    }
  }
  return {};
}

}  // namespace

std::string data_file_fault(std::string_view input) {
  const std::string name = chosen_name(input, all_names());
  const std::string bytes = edited(workshop::bytes_of(name), input);
  const base::DataFiles files = workshop::files_with(name, bytes);
  base::FileFaults faults = first_faults(name, files);
  if (faults.empty()) {
    const auto loaded =
        workshop::load_definitions(files, workshop::font_bytes(), workshop::FileOrigin::kFolder);
    if (loaded) return fault_of_forms(loaded->catalog);
    if (loaded.error().empty()) return "refused without a fault";
    faults = loaded.error();
  }
  for (const base::FileFault& fault : faults) {
    const std::string wrong = fault_of(fault, files);
    if (!wrong.empty()) return wrong;
  }
  return "";
}

}  // namespace benchwarden::fuzz
