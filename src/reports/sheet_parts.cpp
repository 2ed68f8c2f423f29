#include "reports/sheet_parts.h"

#include "reports/texts.h"

namespace benchwarden::reports {

base::Json form_asked_json(const FormAsked& form) {
  base::JsonArray questions;
  for (const document::ChecklistItem& item : form.items) {
    questions.emplace_back(
        base::JsonObject{{"text", item.text},
                         {"answers", base::JsonArray(item.answers.begin(), item.answers.end())},
                         {"write", item.write}});
  }
  return base::JsonObject{{"kind", form.kind},
                          {"title", form.title},
                          {"version", form.version},
                          {"questions", std::move(questions)}};
}

document::Checklist checklist_of(const FormAsked& form, const std::string& about,
                                 const ReportWording& wording) {
  const std::string title =
      wording.text("sheet.form", {{"form", form.title}, {"version", std::to_string(form.version)}});
  if (about.empty()) return {title, form.items};
  return {wording.text("word.label_and_value", {{"label", title}, {"value", about}}), form.items};
}

Blocks filled_blocks(const ReportWording& wording) {
  return {document::Paragraph{wording.text("sheet.required")},
          document::SignatureLine{{wording.text("sheet.filled_by"), wording.text("sheet.filled_at"),
                                   wording.text("signature.sign")}}};
}

Blocks entered_blocks(const ReportWording& wording) {
  return {
      document::Paragraph{wording.text("sheet.to_be_entered")},
      document::SignatureLine{{wording.text("sheet.entered_by"), wording.text("sheet.entered_at"),
                               wording.text("sheet.entered_as")}}};
}

std::vector<std::string> sheet_subject_lines(const Frame& frame, const ReportWording& wording) {
  std::vector<std::string> lines = site_lines(frame, wording);
  lines.push_back(wording.text("subject.history_until",
                               {{"as_of", time_text(frame.as_of)}, {"zone", frame.zone}}));
  for (std::string& line : book_lines(frame, wording)) lines.push_back(std::move(line));
  return lines;
}

}  // namespace benchwarden::reports
