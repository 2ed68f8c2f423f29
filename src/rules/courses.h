#pragma once

#include <string>

#include "findings/cylinder_course.h"
#include "findings/gauge_course.h"
#include "rules/rule_book.h"

namespace benchwarden::rules {

/// Every check, change and use of a cylinder that stands, with what follows from its readings. The
/// losses are those of the first rule of the kind gas-loss in the book that applies to it.
findings::CylinderCourse cylinder_course(const RuleBook& book, const Scene& scene,
                                         const std::string& id);

/// Every inspection of a tool or gauge that stands, with its errors as found, and their forecast.
findings::GaugeCourse gauge_course(const Scene& scene, const findings::Subject& gauge);

}  // namespace benchwarden::rules
