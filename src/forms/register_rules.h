#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// The rules of the effect "changes"; see rules.h.
void check_register(const Definition& definition, const EffectDefinition& effect,
                    const ReadForm& form, const Original& original,
                    const Surroundings& surroundings, entries::Refusals& refusals);

/// Striking out that a container was retired puts it in use again: its stream must be.
void check_register_strike_out(const Definition& definition, const EffectDefinition& effect,
                               const entries::Fields& struck, const Surroundings& surroundings,
                               entries::Refusals& refusals);

}  // namespace benchwarden::forms
