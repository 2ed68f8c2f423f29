#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/civil_date.h"
#include "base/result.h"
#include "findings/finding.h"
#include "print/pdf.h"

namespace benchwarden::workshop {

enum class ReportFormat { kPdf, kHtml, kCsv, kJson, kSvg };

/// A report asked for in words, as the API and the command line get it.
struct ReportWords {
  std::string name = {};
  std::string format = "pdf";
  std::string paper = "a4";
  std::optional<std::string> month = std::nullopt;
  std::optional<std::string> year = std::nullopt;
  std::optional<std::string> subject = std::nullopt;
  std::optional<std::string> from = std::nullopt;
  std::optional<std::string> to = std::nullopt;
  std::optional<std::string> id = std::nullopt;  ///< of the issue, made by who asks for it
};

/// Days of the workshop's zone, both included; from <= to.
struct Days {
  base::CivilDate from;
  base::CivilDate to;
};

/// The same, understood: of month, year, subject and days what its kind is about. `report_id` is
/// that of the entry it is issued by, "" for a preview or where the daemon is to make one.
struct ReportRequest {
  std::string name;
  ReportFormat format = ReportFormat::kPdf;
  print::Paper paper = print::Paper::kA4;
  std::optional<base::CivilMonth> month;
  std::optional<int> year;
  std::optional<findings::Subject> subject;  ///< the id is "" for all of the class
  std::optional<Days> days;
  std::string report_id;
};

/// kNotFound: no report of that name; kInvalid names the word and what would be accepted.
base::Result<ReportRequest> read_report_request(const ReportWords& words);

/// "a4", "letter", "a6" …
std::string_view paper_code(print::Paper paper);

}  // namespace benchwarden::workshop
