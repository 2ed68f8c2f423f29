#pragma once

#include "workshop/report_kinds.h"

// How each kind of report is made. Errors of all: kNotFound, there is no such subject; kInternal.

namespace benchwarden::workshop {

/// kInvalid: its days touch too many months.
base::Result<MadeReport> make_audit_pack(const Ports& ports, const ReportRequest& request);
base::Result<MadeReport> make_briefing_sheet(const Ports& ports, const ReportRequest& request);
base::Result<MadeReport> make_collection_sheet(const Ports& ports, const ReportRequest& request);
base::Result<MadeReport> make_cylinder_history(const Ports& ports, const ReportRequest& request);
base::Result<MadeReport> make_findings_list(const Ports& ports, const ReportRequest& request);
base::Result<MadeReport> make_inspection_sheet(const Ports& ports, const ReportRequest& request);
base::Result<MadeReport> make_label(const Ports& ports, const ReportRequest& request);
base::Result<MadeReport> make_tool_history(const Ports& ports, const ReportRequest& request);
base::Result<MadeReport> make_walk_round_sheet(const Ports& ports, const ReportRequest& request);
base::Result<MadeReport> make_waste_month(const Ports& ports, const ReportRequest& request);
base::Result<MadeReport> make_waste_year(const Ports& ports, const ReportRequest& request);

}  // namespace benchwarden::workshop
