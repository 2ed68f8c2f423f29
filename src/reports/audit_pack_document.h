#pragma once

#include <string>
#include <vector>

#include "document/document.h"
#include "reports/audit_pack.h"
#include "reports/report_data.h"

namespace benchwarden::reports {

/// A report to be bound into a pack, by its name for machines: "waste-month/2026-10".
struct PackPart {
  std::string name;
  document::Document document;
};

/// The pack with its parts between the contents and its own tables.
document::Document audit_pack_document(const AuditPackFigures& figures, std::vector<PackPart> parts,
                                       const ReportData& data);

}  // namespace benchwarden::reports
