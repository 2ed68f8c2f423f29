#pragma once

#include "document/document.h"
#include "reports/collection_sheet.h"
#include "reports/report_data.h"

namespace benchwarden::reports {

/// Of a collection about which something stands.
document::Document collection_sheet_document(const CollectionSheetFigures& figures,
                                             const ReportData& data);

}  // namespace benchwarden::reports
