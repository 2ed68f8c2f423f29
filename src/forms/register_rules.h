#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// The rules of the effect "changes"; see rules.h.
void check_register(const Definition& definition, const EffectDefinition& effect,
                    const ReadForm& form, const Original& original,
                    const Surroundings& surroundings, entries::Refusals& refusals);

}  // namespace benchwarden::forms
