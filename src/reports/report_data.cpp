#include "reports/report_data.h"

namespace benchwarden::reports {

base::Result<ReportData, base::FileFaults> load_report_data(const base::DataFiles& files) {
  base::FileFaults faults;
  auto wording = ReportWording::load(files);
  auto cautions = Cautions::load(files);
  auto label_sizes = LabelSizes::load(files);
  if (!wording) faults = wording.error();
  if (!label_sizes) {
    faults.insert(faults.end(), label_sizes.error().begin(), label_sizes.error().end());
  }
  if (!cautions) {
    faults.insert(faults.end(), cautions.error().begin(), cautions.error().end());
    return faults;
  }
  auto definitions = ReportDefinitions::load(files, *cautions);
  if (!definitions) {
    faults.insert(faults.end(), definitions.error().begin(), definitions.error().end());
  }
  auto returns = Returns::load(files);
  if (!returns) faults.insert(faults.end(), returns.error().begin(), returns.error().end());
  if (!faults.empty()) return faults;
  return ReportData{*std::move(wording), *std::move(cautions), *std::move(definitions),
                    *std::move(label_sizes), *std::move(returns)};
}

}  // namespace benchwarden::reports
