#pragma once

#include <string>
#include <vector>

#include "base/json.h"
#include "reports/closing_parts.h"
#include "reports/frame.h"
#include "reports/wording.h"

// What the sheets to be filled in by hand share.

namespace benchwarden::reports {

/// What a form asks, as its definition has it.
struct FormAsked {
  std::string kind;
  std::string title;
  int version = 1;
  std::vector<document::ChecklistItem> items;
};
base::Json form_asked_json(const FormAsked& form);

/// The questions under the title and version of their form; `about` names what they are asked of,
/// "" for the workshop.
document::Checklist checklist_of(const FormAsked& form, const std::string& about,
                                 const ReportWording& wording);

/// Who filled it in and when; that it counts once it stands in the book; who entered it and when.
Blocks filled_blocks(const ReportWording& wording);
Blocks entered_blocks(const ReportWording& wording);

/// Site, how far the book reaches, and the book.
std::vector<std::string> sheet_subject_lines(const Frame& frame, const ReportWording& wording);

}  // namespace benchwarden::reports
