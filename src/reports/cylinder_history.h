#pragma once

#include "findings/cylinder_course.h"
#include "reports/history.h"

namespace benchwarden::reports {

struct CylinderHistoryFigures {
  HistoryFigures history;
  findings::CylinderCourse course;  ///< as far as it stands
};

base::Json cylinder_history_json(const CylinderHistoryFigures& figures);

}  // namespace benchwarden::reports
