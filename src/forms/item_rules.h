#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// A check that leaves a thing in service although one of its items failed is unusual: its outcome
/// wants `confirmed`. Of a correction only what it changes is judged.
void check_items(const Definition& definition, const EffectDefinition& effect, const ReadForm& form,
                 const ReadContext& context, entries::Refusals& refusals);

}  // namespace benchwarden::forms
