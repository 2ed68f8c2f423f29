#include "reports/tool_history_document.h"

#include <cassert>

#include "reports/gauge_course_blocks.h"

namespace benchwarden::reports {
namespace {

Blocks blocks_of(const ToolHistoryFigures& figures, const HistoryParts& parts,
                 const ReportDefinition& definition, const SectionDefinition& section,
                 const ReportData& data) {
  if (section.id == "register") return register_blocks(parts, section);
  if (section.id == "course") return gauge_course_blocks(figures, parts, section);
  if (section.id == "inspections") return check_blocks(parts, section);
  if (section.id == "changes") return change_blocks(parts, section);
  if (section.id == "methods") {
    return history_method_blocks(
        parts, {data.wording.text("methods.errors"), data.wording.text("methods.forecast")});
  }
  if (section.id == "cautions") return caution_blocks(definition, data);
  assert(section.id == "signature");
  return signature_blocks(parts.wording);
}

}  // namespace

document::Document tool_history_document(const ToolHistoryFigures& figures,
                                         const ReportData& data) {
  const ReportDefinition& definition = data.definitions.get("tool-history");
  const HistoryParts parts{figures.history,
                           data.wording,
                           Texts(figures.history.frame, data.wording),
                           "tool-inspection",
                           {"inspected_class", "tool", "gauge", "points"}};
  const bool is_gauge = figures.history.thing_class == "gauge";
  document::Document document = history_document(
      parts, definition,
      data.wording.text(is_gauge ? Key("page.period_gauge") : Key("page.period_tool"),
                        {{"thing", figures.history.id}}));
  for (const SectionDefinition& section : definition.sections) {
    document.sections.push_back(
        titled_section(data.wording, definition.id, section.id,
                       blocks_of(figures, parts, definition, section, data)));
  }
  return document;
}

}  // namespace benchwarden::reports
