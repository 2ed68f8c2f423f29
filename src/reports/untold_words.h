#pragma once

#include <string>
#include <string_view>

#include "findings/untold.h"
#include "reports/wording.h"

namespace benchwarden::reports {

/// What is missing, in words short enough for a cell.
const std::string& untold_words(findings::Untold untold, const ReportWording& wording);
/// A verdict of calculations::verdict_code in words.
const std::string& verdict_words(std::string_view verdict, const ReportWording& wording);

}  // namespace benchwarden::reports
