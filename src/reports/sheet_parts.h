#pragma once

#include <string>
#include <vector>

#include "base/json.h"
#include "reports/closing_parts.h"
#include "reports/frame.h"
#include "reports/wording.h"

// What the sheets to be filled in by hand share.

namespace benchwarden::reports {

struct QuestionAsked {
  std::string field;  ///< of the form
  std::string label;  ///< with what is to be known before answering: a star, a condition
  std::string help;   ///< what is meant
  std::vector<std::string> answers;
  std::string write;  ///< label of a line to write on; "" where boxes are ticked
};

/// What a form asks, as its definition has it.
struct FormAsked {
  std::string kind;
  std::string title;
  int version = 1;
  std::vector<QuestionAsked> questions;
};
base::Json form_asked_json(const FormAsked& form);

/// The questions with what is meant by each, under the title and version of their form.
document::Checklist checklist_of(const FormAsked& form, const ReportWording& wording);
/// The same in short, asked of one of several things; `meant_by` says once what is meant.
document::Checklist short_checklist_of(const FormAsked& form, const std::string& thing,
                                       const ReportWording& wording);
/// The form without these fields.
FormAsked without(FormAsked form, const std::vector<std::string>& fields);
document::NoteBox meant_by(const FormAsked& form, const ReportWording& wording);

/// Who filled it in and when; that it counts once it stands in the book; who entered it and when.
Blocks filled_blocks(const ReportWording& wording);
Blocks entered_blocks(const ReportWording& wording);

/// Site, how far the book reaches, and the book.
std::vector<std::string> sheet_subject_lines(const Frame& frame, const ReportWording& wording);

}  // namespace benchwarden::reports
