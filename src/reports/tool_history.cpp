#include "reports/tool_history.h"

#include "reports/course_json.h"

namespace benchwarden::reports {

base::Json tool_history_json(const ToolHistoryFigures& figures) {
  base::JsonObject report =
      history_json(figures.history, "tool-history", figures.history.thing_class);
  base::JsonArray course;
  for (const findings::GaugeMoment& moment : figures.course.moments) {
    base::JsonObject line{
        {"entry", moment.entry},
        {"occurred_at", base::format_rfc3339(figures.history.zone.local(moment.at))}};
    for (base::JsonMember& member : course_json(moment)) line.push_back(std::move(member));
    course.emplace_back(std::move(line));
  }
  report.emplace_back("course", std::move(course));
  report.emplace_back("forecast", forecast_json(figures.course.forecast));
  return report;
}

}  // namespace benchwarden::reports
