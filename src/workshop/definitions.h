#pragma once

#include <string_view>
#include <vector>

#include "base/data_file.h"
#include "base/json.h"
#include "base/toml.h"
#include "forms/calculation_form.h"
#include "forms/calculation_wording.h"
#include "forms/catalog.h"
#include "forms/wording.h"
#include "print/layout.h"
#include "reports/report_data.h"
#include "rules/figures.h"
#include "rules/rule_pack.h"
#include "workshop/emergency.h"
#include "workshop/export_wording.h"
#include "workshop/finding_wording.h"

namespace benchwarden::workshop {

/// Whether the data files are those the program was built with. Reports made with others are
/// marked "not for issue".
enum class FileOrigin { kBuiltIn, kFolder };

/// Everything that forms/ and reports/ define, read and checked.
struct Definitions {
  forms::Catalog catalog;
  forms::Wording wording;
  reports::ReportData reports;
  print::Layout layout;
  Emergency emergency;
  ExportWording export_wording;
  forms::CalculationForms calculations;
  forms::CalculationWording calculation_wording;
  rules::Figures figures;
  std::vector<rules::RulePack> packs;
  FindingWording finding_wording;
  base::Json openapi;  ///< without the schemas of the kinds of entry
  std::string_view font_bytes;
  FileOrigin origin = FileOrigin::kBuiltIn;
};

/// Every fault of every file at once. The bytes of `files` and the font must outlive the result.
base::Result<Definitions, base::FileFaults> load_definitions(const base::DataFiles& files,
                                                             std::string_view font_bytes,
                                                             FileOrigin origin);

}  // namespace benchwarden::workshop
