#pragma once

#include <optional>
#include <string>

#include "findings/finding.h"
#include "reports/wording.h"

namespace benchwarden::reports {

/// What asks for something, and where its figures are not from the text itself, that they are not.
std::string source_words(const ReportWording& wording, const std::string& citation,
                         const std::optional<findings::Confidence>& confidence);

}  // namespace benchwarden::reports
