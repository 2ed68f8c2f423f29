#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// A hold is lifted by the authority and the scope under which it was placed; where its authority
/// has no other, the scope may be left out. What does not stand is not lifted. Of a correction only
/// what it changes is judged.
void check_hold(const Definition& definition, const ReadForm& form, const Original& original,
                const ReadContext& context, entries::Refusals& refusals);

}  // namespace benchwarden::forms
