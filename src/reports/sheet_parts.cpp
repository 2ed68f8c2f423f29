#include "reports/sheet_parts.h"

#include <algorithm>

#include "reports/texts.h"

namespace benchwarden::reports {

namespace {

std::string form_title(const FormAsked& form, const ReportWording& wording) {
  return wording.text("sheet.form",
                      {{"form", form.title}, {"version", std::to_string(form.version)}});
}

document::Checklist empty_checklist(const FormAsked& form, const std::string& caption,
                                    const ReportWording& wording) {
  document::Checklist list;
  list.caption = caption;
  list.continued = wording.text("sheet.continued", {{"caption", caption}});
  list.name = form.kind;
  return list;
}

std::string explained(const QuestionAsked& question, const ReportWording& wording) {
  return wording.text("word.label_and_value",
                      {{"label", question.label}, {"value", question.help}});
}

}  // namespace

base::Json form_asked_json(const FormAsked& form) {
  base::JsonArray questions;
  for (const QuestionAsked& one : form.questions) {
    questions.emplace_back(
        base::JsonObject{{"field", one.field},
                         {"label", one.label},
                         {"help", one.help},
                         {"answers", base::JsonArray(one.answers.begin(), one.answers.end())},
                         {"write", one.write}});
  }
  return base::JsonObject{{"kind", form.kind},
                          {"title", form.title},
                          {"version", form.version},
                          {"questions", std::move(questions)}};
}

document::Checklist checklist_of(const FormAsked& form, const ReportWording& wording) {
  document::Checklist list = empty_checklist(form, form_title(form, wording), wording);
  for (const QuestionAsked& one : form.questions) {
    list.items.push_back({explained(one, wording), one.answers, one.write, one.field});
  }
  return list;
}

document::Checklist short_checklist_of(const FormAsked& form, const std::string& thing,
                                       const ReportWording& wording) {
  document::Checklist list =
      empty_checklist(form,
                      wording.text("word.label_and_value",
                                   {{"label", form_title(form, wording)}, {"value", thing}}),
                      wording);
  for (const QuestionAsked& one : form.questions) {
    list.items.push_back({one.label, one.answers, one.write, one.field});
  }
  return list;
}

FormAsked without(FormAsked form, const std::vector<std::string>& fields) {
  std::erase_if(form.questions, [&](const QuestionAsked& one) {
    return std::find(fields.begin(), fields.end(), one.field) != fields.end();
  });
  return form;
}

document::NoteBox meant_by(const FormAsked& form, const ReportWording& wording) {
  document::NoteBox box{wording.text("sheet.meant", {{"form", form_title(form, wording)}}), {}, ""};
  for (const QuestionAsked& one : form.questions) box.lines.push_back(explained(one, wording));
  return box;
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
  if (frame.book_size == 0) {
    lines.push_back(wording.text("subject.empty_book"));
  } else {
    lines.push_back(wording.text("subject.sheet_until",
                                 {{"as_of", time_text(frame.as_of)}, {"zone", frame.zone}}));
  }
  // The book alone: what is never issued is no preview of anything.
  lines.push_back(book_lines(frame, wording).front());
  return lines;
}

}  // namespace benchwarden::reports
