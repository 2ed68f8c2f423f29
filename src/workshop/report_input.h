#pragma once

#include <optional>
#include <string>
#include <vector>

#include "findings/finding.h"
#include "reports/input.h"
#include "reports/month_closing.h"
#include "workshop/ports.h"
#include "workshop/report_request.h"

namespace benchwarden::workshop {

/// What a report is made from: the state of one size of the book, copied so that nobody waits for
/// the report, and the entries up to that size.
struct ReportInput {
  tallies::State state;
  reports::Basis basis;
  std::vector<reports::RecordedEntry> entries;
  std::vector<reports::RecordedEntry> changes;  ///< register entries about the subject
  reports::Names names;
  reports::FormTexts forms;
  std::optional<reports::MonthClosing> closing;  ///< of the month, where one stands
};

base::Result<ReportInput> waste_month_input(const Ports& ports, base::CivilMonth month);
/// The entries that occurred in the year, without the register's and without a closing.
base::Result<ReportInput> waste_year_input(const Ports& ports, int year);
/// The entries about a collection.
base::Result<ReportInput> collection_input(const Ports& ports, const findings::Subject& collection);
/// Every entry of the days, and of those corrected on them what they correct.
base::Result<ReportInput> days_input(const Ports& ports, const Days& days);
/// `check_kind`: the kind of the entries that are checks of the thing.
base::Result<ReportInput> history_input(const Ports& ports, const findings::Subject& thing,
                                        std::string_view check_kind);

/// With every entry of these kinds in book order; for corrections the entries they correct. Of no
/// kind: what is said of the present alone.
base::Result<ReportInput> kinds_input(const Ports& ports, const std::vector<std::string>& kinds);

}  // namespace benchwarden::workshop
