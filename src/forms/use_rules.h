#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// What an entry tells to have been used (`uses` of its form) and was withdrawn by then wants
/// confirmation. Of a correction only what it names newly is judged.
void check_uses(const Definition& definition, const ReadForm& form, const Original& original,
                const ReadContext& context, entries::Refusals& refusals);

}  // namespace benchwarden::forms
