#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// What `in_order` of a form demands: no day before the one it follows, no quantity at or below the
/// one it must exceed. What a register entry leaves out stands as it is in the register. Of a
/// correction only what it gives is judged.
void check_order(const Definition& definition, const ReadForm& form, const Original& original,
                 const Surroundings& surroundings, entries::Refusals& refusals);

}  // namespace benchwarden::forms
