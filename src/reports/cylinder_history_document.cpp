#include "reports/cylinder_history_document.h"

#include <cassert>

#include "reports/cylinder_course_blocks.h"

namespace benchwarden::reports {
namespace {

Blocks blocks_of(const CylinderHistoryFigures& figures, const HistoryParts& parts,
                 const ReportDefinition& definition, const SectionDefinition& section,
                 const ReportData& data) {
  if (section.id == "register") return register_blocks(parts, section);
  if (section.id == "course") return cylinder_course_blocks(figures, parts, section);
  if (section.id == "checks") return check_blocks(parts, section);
  if (section.id == "changes") return change_blocks(parts, section);
  if (section.id == "methods") {
    return history_method_blocks(
        parts, {data.wording.text("methods.pressure"), data.wording.text("methods.content"),
                data.wording.text("methods.loss")});
  }
  if (section.id == "cautions") return caution_blocks(definition, data);
  assert(section.id == "signature");
  return signature_blocks(parts.wording);
}

}  // namespace

document::Document cylinder_history_document(const CylinderHistoryFigures& figures,
                                             const ReportData& data) {
  const ReportDefinition& definition = data.definitions.get("cylinder-history");
  const HistoryParts parts{figures.history,
                           data.wording,
                           Texts(figures.history.frame, data.wording),
                           "cylinder-check",
                           {"cylinder"}};
  document::Document document = history_document(
      parts, definition,
      data.wording.text("page.period_cylinder", {{"cylinder", figures.history.id}}));
  for (const SectionDefinition& section : definition.sections) {
    document.sections.push_back(
        titled_section(data.wording, definition.id, section.id,
                       blocks_of(figures, parts, definition, section, data)));
  }
  return document;
}

}  // namespace benchwarden::reports
