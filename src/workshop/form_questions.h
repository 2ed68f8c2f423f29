#pragma once

#include <map>
#include <string>

#include "forms/definition.h"
#include "reports/sheet_parts.h"

namespace benchwarden::workshop {

/// Fields of a form whose value is known before it is filled in, by name: they are not asked.
using Given = std::map<std::string, std::string, std::less<>>;

/// What is to be answered by hand: every field in force that may apply beside what is given, in the
/// order of the form, with the labels of its options. Lists are left out: they need a table.
reports::FormAsked questions_of(const forms::Definition& form, const Given& given,
                                const reports::ReportWording& wording);

}  // namespace benchwarden::workshop
