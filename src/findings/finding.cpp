#include "findings/finding.h"

namespace benchwarden::findings {
std::string_view word(Severity severity) {
  switch (severity) {
    case Severity::kNote:
      return "note";
    case Severity::kDue:
      return "due";
    case Severity::kOver:
      break;
  }
  return "over";
}

std::string_view word(Confidence confidence) {
  switch (confidence) {
    case Confidence::kTextSeen:
      return "text-seen";
    case Confidence::kOwnRule:
      return "own-rule";
    case Confidence::kSecondHand:
      return "second-hand";
    case Confidence::kFromMemory:
      break;
  }
  return "from-memory";
}

std::string_view part_of(const Values& values) {
  for (const auto& [name, shown] : values) {
    if (name == "which") return shown.value;
  }
  return "";
}

std::string key_of(const Finding& finding) {
  const std::string subject = finding.subject.thing_class.empty()
                                  ? "workshop"
                                  : finding.subject.thing_class + "/" + finding.subject.id;
  const std::string part(part_of(finding.values));
  return finding.authority.rule + " " + subject + " " + std::string(word(finding.severity)) + " " +
         base::format_rfc3339_utc(finding.since) + (part.empty() ? "" : " " + part);
}

}  // namespace benchwarden::findings
