#include "workshop/definitions.h"

#include <utility>

#include "calculations/refusal.h"
#include "workshop/check_calculations.h"
#include "workshop/check_pack.h"

namespace benchwarden::workshop {
namespace {

base::DataFiles below(const base::DataFiles& files, std::string_view prefix) {
  base::DataFiles found;
  for (const base::DataFile& file : files) {
    if (std::string_view(file.path).starts_with(prefix)) found.push_back(file);
  }
  return found;
}

const base::DataFile* find_file(const base::DataFiles& files, std::string_view path) {
  for (const base::DataFile& file : files) {
    if (file.path == path) return &file;
  }
  return nullptr;
}

template <class T, class Read>
base::Result<T, base::FileFaults> read_one(const base::DataFiles& files, const std::string& path,
                                           const Read& read) {
  const base::DataFile* file = find_file(files, path);
  if (file == nullptr) return base::FileFaults{{path, 0, "is missing"}};
  return read(*file);
}

base::Result<base::Json, base::FileFaults> read_openapi(const base::DataFile& file) {
  constexpr int kDepthMax = 40;
  auto json = base::parse_json(file.bytes, kDepthMax);
  if (!json) return base::FileFaults{{file.path, 0, json.error().detail}};
  return *std::move(json);
}

base::Result<std::vector<rules::RulePack>, base::FileFaults> read_packs(
    const base::DataFiles& files) {
  std::vector<rules::RulePack> packs;
  base::FileFaults faults;
  for (const base::DataFile& file : files) {
    auto pack = rules::read_pack(file.bytes, file.path);
    if (pack) {
      packs.push_back(*std::move(pack));
    } else {
      faults.insert(faults.end(), pack.error().begin(), pack.error().end());
    }
  }
  if (!faults.empty()) return faults;
  return packs;
}

template <class T>
void collect(const base::Result<T, base::FileFaults>& loaded, base::FileFaults& faults) {
  if (loaded) return;
  faults.insert(faults.end(), loaded.error().begin(), loaded.error().end());
}

/// A form may only name cautions that exist.
void check_cautions(const forms::Catalog& catalog, const reports::Cautions& cautions,
                    base::FileFaults& faults) {
  for (const forms::Definition& definition : catalog.definitions()) {
    for (const std::string& id : definition.cautions) {
      if (cautions.find(id) != nullptr) continue;
      faults.push_back({"forms/definitions/" + definition.kind + ".toml", 0,
                        "there is no caution '" + id + "' in reports/cautions"});
    }
  }
}

}  // namespace

base::Result<Definitions, base::FileFaults> load_definitions(const base::DataFiles& files,
                                                             std::string_view font_bytes,
                                                             FileOrigin origin) {
  auto catalog = forms::Catalog::load(below(files, "forms/definitions/"));
  auto wording = forms::Wording::load(below(files, "forms/wording/"));
  auto reports = reports::load_report_data(below(files, "reports/"));
  const auto layout =
      read_one<print::Layout>(files, "reports/layout/report.toml", print::read_layout);
  auto emergency = read_one<Emergency>(files, "reports/cautions/emergency.toml", read_emergency);
  auto export_wording =
      read_one<ExportWording>(files, "forms/wording/export.toml", read_export_wording);
  auto openapi = read_one<base::Json>(files, "forms/wording/openapi.json", read_openapi);
  auto calculation_forms = forms::CalculationForms::load(below(files, "forms/calculations/"));
  auto calculation_wording =
      forms::CalculationWording::load(files, calculations::all_refusal_keys());
  auto figures = rules::Figures::load(below(files, "reports/rules/figures/"));
  auto packs = read_packs(below(files, "reports/rules/packs/"));
  auto finding_wording =
      read_one<FindingWording>(files, "reports/wording/findings.toml", FindingWording::load);
  base::FileFaults faults;
  collect(packs, faults);
  collect(finding_wording, faults);
  collect(calculation_forms, faults);
  collect(calculation_wording, faults);
  collect(figures, faults);
  collect(catalog, faults);
  collect(wording, faults);
  collect(reports, faults);
  collect(layout, faults);
  collect(emergency, faults);
  collect(export_wording, faults);
  collect(openapi, faults);
  if (catalog && reports) check_cautions(*catalog, reports->cautions, faults);
  if (catalog && packs) {
    for (const rules::RulePack& pack : *packs) check_pack(pack, *catalog, *packs, faults);
  }
  if (calculation_forms && reports && figures) {
    check_calculations(*calculation_forms, reports->cautions, *figures, faults);
  }
  if (!faults.empty()) return faults;
  return Definitions{*std::move(catalog),
                     *std::move(wording),
                     *std::move(reports),
                     *layout,
                     *std::move(emergency),
                     *std::move(export_wording),
                     *std::move(calculation_forms),
                     *std::move(calculation_wording),
                     *std::move(figures),
                     *std::move(packs),
                     *std::move(finding_wording),
                     *std::move(openapi),
                     font_bytes,
                     origin};
}

}  // namespace benchwarden::workshop
