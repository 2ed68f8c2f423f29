#include "workshop/form_questions.h"

#include <algorithm>

#include "forms/shown.h"

namespace benchwarden::workshop {
namespace {

using entries::FieldType;
using forms::Condition;
using forms::FieldDefinition;

/// Whether what is given rules the field out.
bool ruled_out(const FieldDefinition& field, const Given& given) {
  return std::any_of(field.when.begin(), field.when.end(), [&](const Condition& condition) {
    const auto known = given.find(condition.field);
    return known != given.end() && std::find(condition.codes.begin(), condition.codes.end(),
                                             known->second) == condition.codes.end();
  });
}

/// The conditions that only the answers on paper can decide.
forms::Conditions open_conditions(const FieldDefinition& field, const Given& given) {
  forms::Conditions open;
  std::copy_if(field.when.begin(), field.when.end(), std::back_inserter(open),
               [&](const Condition& condition) { return !given.contains(condition.field); });
  return open;
}

std::string label_of(const forms::Definition& form, const FieldDefinition& field,
                     const Given& given, const reports::ReportWording& wording) {
  const std::string label =
      field.required ? wording.text("sheet.must", {{"label", field.label}}) : field.label;
  const forms::Conditions open = open_conditions(field, given);
  if (open.empty()) return label;
  return wording.text("sheet.only_if", {{"label", label},
                                        {"condition", forms::shown_conditions(open, form.fields)}});
}

/// What is written on the line; "" where boxes are ticked.
std::string write_of(const FieldDefinition& field, const reports::ReportWording& wording) {
  switch (field.type) {
    case FieldType::kCode:
      return "";
    case FieldType::kQuantity:
      return field.unit->symbol.empty() ? wording.text("sheet.number")
                                        : std::string(field.unit->symbol);
    case FieldType::kDate:
      return wording.text("sheet.date");
    default:
      return wording.text("sheet.words");
  }
}

bool is_asked(const FieldDefinition& field, const Given& given) {
  return !field.retired && field.type != FieldType::kList && !given.contains(field.name) &&
         !ruled_out(field, given);
}

}  // namespace

reports::FormAsked questions_of(const forms::Definition& form, const Given& given,
                                const reports::ReportWording& wording) {
  reports::FormAsked asked{form.kind, form.title, form.version, {}};
  for (const FieldDefinition& field : form.fields) {
    if (!is_asked(field, given)) continue;
    reports::QuestionAsked question{field.name,
                                    label_of(form, field, given, wording),
                                    field.help,
                                    {},
                                    write_of(field, wording)};
    for (const forms::CodeOption& option : field.options) question.answers.push_back(option.label);
    asked.questions.push_back(std::move(question));
  }
  return asked;
}

}  // namespace benchwarden::workshop
