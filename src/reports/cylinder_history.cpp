#include "reports/cylinder_history.h"

#include "reports/course_json.h"

namespace benchwarden::reports {

base::Json cylinder_history_json(const CylinderHistoryFigures& figures) {
  base::JsonObject report = history_json(figures.history, "cylinder-history", "cylinder");
  base::JsonArray course;
  for (const findings::CylinderMoment& moment : figures.course) {
    base::JsonObject line{
        {"entry", moment.entry},
        {"kind", moment.kind},
        {"occurred_at", base::format_rfc3339(figures.history.zone.local(moment.at))}};
    for (base::JsonMember& member : course_json(moment, figures.history.zone)) {
      line.push_back(std::move(member));
    }
    course.emplace_back(std::move(line));
  }
  report.emplace_back("course", std::move(course));
  return report;
}

}  // namespace benchwarden::reports
