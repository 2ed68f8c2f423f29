#pragma once

#include <string>
#include <string_view>

#include "base/json.h"
#include "base/uuid.h"
#include "workshop/ports.h"
#include "workshop/report_request.h"

namespace benchwarden::workshop {

/// The entries that say that a report was issued.
inline constexpr std::string_view kIssuedKind = "report-issued";

struct ReportFile {
  std::string bytes;
  std::string content_type;
  std::string file_name;
  std::string security_policy;  ///< for HTML: what the page may load; else empty
};

/// Makes a report of the book as it stands; writes nothing. Equal book, equal bytes: the only time
/// in it is that of the last entry. kNotFound: no such subject; kInvalid: it has no such form (SVG
/// without a chart, paper it cannot be printed on); kInternal: the PDF cannot be made;
/// kUnavailable: too many are being made.
base::Result<ReportFile> make_report(const Ports& ports, const ReportRequest& request);

struct Issued {
  base::Json receipt;          ///< {"id", "seq", "digest", "pdf"}
  bool already_there = false;  ///< the same was issued under the same id before
};

/// Signs the book it stands on and its figures, makes the PDF, keeps both and records that it was
/// issued. Others may record meanwhile; the report stands on the book as it was when the making
/// began, and says so. kForbidden while the data files are not the built-in ones; kInvalid for a
/// month, year or day that has not begun, and for what is never issued; kConflict when another
/// entry has the id; kUnavailable: too many are being made.
base::Result<Issued> issue_report(const Ports& ports, const Actor& actor,
                                  const ReportRequest& wanted);

enum class IssuedPart { kPdf, kFigures };
/// The bytes of an issued report, or of its figures (RFC 8785), by the id of its entry; no figures
/// were kept of those issued before they were signed.
base::Result<std::string> issued_file(const Ports& ports, const base::Uuid& id, IssuedPart part);

}  // namespace benchwarden::workshop
