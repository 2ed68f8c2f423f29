#include "reports/source_words.h"

namespace benchwarden::reports {

std::string source_words(const ReportWording& wording, const std::string& citation,
                         const std::optional<findings::Confidence>& confidence) {
  if (confidence == findings::Confidence::kOwnRule) {
    return wording.text("due.own_rule", {{"citation", citation}});
  }
  if (confidence == findings::Confidence::kFromMemory) {
    return wording.text("due.from_memory", {{"citation", citation}});
  }
  if (confidence == findings::Confidence::kSecondHand) {
    return wording.text("due.second_hand", {{"citation", citation}});
  }
  return citation;
}

}  // namespace benchwarden::reports
