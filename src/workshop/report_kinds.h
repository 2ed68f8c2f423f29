#pragma once

#include <span>
#include <string_view>

#include "base/json.h"
#include "document/document.h"
#include "reports/input.h"
#include "workshop/ports.h"
#include "workshop/report_request.h"

namespace benchwarden::workshop {

/// A report as figures: what is printed, and the same for machines.
struct MadeReport {
  document::Document document;
  base::Json json;
  reports::Basis basis;
};

enum class About {
  kWorkshop,  ///< as it stands now: nothing more is asked for
  kMonth,
  kYear,
  kSubject,
  kDays,
};

enum class Issuing {
  kIssued,  ///< for signature: kept, and its digest put into the book
  kNever,   ///< a label, a blank form
};

/// One report the program can make.
struct ReportKind {
  std::string_view name;
  About about = About::kWorkshop;
  /// Of kSubject: the classes of what it can be about. Where it is one class, the subject is the id
  /// alone, else "class/id".
  std::span<const std::string_view> classes = {};
  bool whole_class = false;  ///< the class alone is a subject, too: all of it
  Issuing issuing = Issuing::kIssued;
  base::Result<MadeReport> (*make)(const Ports&, const ReportRequest&) = nullptr;
};

/// In order of name.
std::span<const ReportKind> report_kinds();
const ReportKind* find_report_kind(std::string_view name);

}  // namespace benchwarden::workshop
