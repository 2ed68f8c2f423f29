#pragma once

#include <optional>
#include <string>

#include "base/json.h"
#include "print/pdf.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

enum class ReportFormat { kPdf, kHtml, kCsv, kJson };

/// A report asked for in words, as the API and the command line get it.
struct ReportWords {
  std::string name;
  std::string format;
  std::string paper;
  std::optional<std::string> month;
  std::optional<std::string> subject;
  std::optional<std::string> id = std::nullopt;  ///< of the issue, made by who asks for it
};

/// The same, understood. `report_id` is that of the entry it is issued by, "" for a preview or
/// where the daemon is to make one. `month` for waste-month, `subject` for histories:
/// "n1" for cylinder-history, "tool/t1" or "gauge/g1" for tool-history.
struct ReportRequest {
  std::string name;
  ReportFormat format = ReportFormat::kPdf;
  print::Paper paper = print::Paper::kA4;
  std::optional<base::CivilMonth> month;
  std::optional<std::string> subject;
  std::string report_id;
};
/// kNotFound: no report of that name; kInvalid names the word and what would be accepted.
base::Result<ReportRequest> read_report_request(const ReportWords& words);

struct ReportFile {
  std::string bytes;
  std::string content_type;
  std::string file_name;
  std::string security_policy;  ///< for HTML: what the page may load; else empty
};

/// Makes a report of the book as it stands; writes nothing. Equal book, equal bytes: the only time
/// in it is that of the last entry. kNotFound: no such subject; kInternal: the PDF cannot be made;
/// kUnavailable: too many are being made.
base::Result<ReportFile> make_report(const Ports& ports, const ReportRequest& request);

struct Issued {
  base::Json receipt;          ///< {"id", "seq", "digest", "pdf"}
  bool already_there = false;  ///< the same was issued under the same id before
};

/// Makes the PDF, keeps its bytes and records that it was issued. Others may record meanwhile; the
/// report stands on the book as it was when the making began, and says so. kForbidden while the
/// data files are not the built-in ones; kInvalid for a month that has not begun; kConflict when
/// another entry has the id; kUnavailable: too many are being made.
base::Result<Issued> issue_report(const Ports& ports, const Actor& actor,
                                  const ReportRequest& wanted);

/// The bytes of an issued report, by the id of its entry.
base::Result<std::string> issued_pdf(const Ports& ports, const base::Uuid& id);

}  // namespace benchwarden::workshop
