#pragma once

#include "forms/calculation_form.h"
#include "reports/cautions.h"
#include "rules/figures.h"

namespace benchwarden::workshop {

/// Faults where forms/calculations and the calculations of the program do not belong together: one
/// without the other, inputs of other names, words for codes there are not, unknown cautions and
/// figures.
void check_calculations(const forms::CalculationForms& forms, const reports::Cautions& cautions,
                        const rules::Figures& figures, base::FileFaults& faults);

}  // namespace benchwarden::workshop
