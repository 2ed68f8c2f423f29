#pragma once

#include "document/document.h"
#include "reports/label.h"
#include "reports/report_data.h"

namespace benchwarden::reports {

/// A document of labels alone, one for each thing.
document::Document label_document(const LabelFigures& figures, const ReportData& data);

}  // namespace benchwarden::reports
