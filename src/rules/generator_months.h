#pragma once

#include <vector>

#include "findings/generator_month.h"
#include "rules/rule_book.h"

namespace benchwarden::rules {

/// The months of a year that have begun by the scene's day, each with what counted in it and its
/// category by all rules of the kind month-mass in the book, whatever category is notified. Empty
/// where there is no such rule.
std::vector<findings::GeneratorMonth> generator_months(const RuleBook& book, const Scene& scene,
                                                       int year);

}  // namespace benchwarden::rules
