#pragma once

#include "entries/effect.h"
#include "forms/definition.h"

namespace benchwarden::forms {

/// What one effect of a kind does, by the fields of one entry. The fields in its required roles
/// must be there.
entries::Effect effect_of(const Definition& definition, const EffectDefinition& effect,
                          const entries::Fields& fields);

}  // namespace benchwarden::forms
