#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// Waste with a suspected contamination that goes into a container wants that suspicion confirmed,
/// unless the register has what is suspected as of the container's stream: solvent of spent
/// solvent, chlorinated solvent of what is halogenated. Of a correction only what it names newly is
/// judged.
void check_suspicion(const Definition& definition, const EffectDefinition& effect,
                     const ReadForm& form, const ReadContext& context, entries::Refusals& refusals);

}  // namespace benchwarden::forms
