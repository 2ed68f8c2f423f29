#include "findings/finding.h"

namespace benchwarden::findings {
namespace {

std::string_view word(Severity severity) {
  switch (severity) {
    case Severity::kNote:
      return "note";
    case Severity::kDue:
      return "due";
    case Severity::kOver:
      return "over";
  }
  return "";
}

}  // namespace

std::string key_of(const Finding& finding) {
  const std::string subject = finding.subject.thing_class.empty()
                                  ? "workshop"
                                  : finding.subject.thing_class + "/" + finding.subject.id;
  return finding.authority.rule + " " + subject + " " + std::string(word(finding.severity)) + " " +
         base::format_rfc3339_utc(finding.since);
}

}  // namespace benchwarden::findings
