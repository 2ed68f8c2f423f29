#pragma once

#include "base/data_file.h"
#include "base/toml.h"
#include "reports/cautions.h"
#include "reports/definition.h"
#include "reports/label_sizes.h"
#include "reports/returns.h"
#include "reports/wording.h"

namespace benchwarden::reports {

/// Everything of reports/ that makes documents, complete and consistent.
struct ReportData {
  ReportWording wording;
  Cautions cautions;
  ReportDefinitions definitions;
  LabelSizes label_sizes;
  Returns returns;
};

/// All faults of all files at once.
base::Result<ReportData, base::FileFaults> load_report_data(const base::DataFiles& files);

}  // namespace benchwarden::reports
