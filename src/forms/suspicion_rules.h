#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// Waste with a suspected contamination that goes into a container wants that suspicion confirmed,
/// unless the register has what is suspected as of the container's stream: solvent of spent
/// solvent, chlorinated solvent of what is halogenated. Of a correction only what it names newly is
/// judged.
void check_suspicion(const Definition& definition, const EffectDefinition& effect,
                     const ReadForm& form, const ReadContext& context, entries::Refusals& refusals);

/// Solvent told to be halogenated, into a container whose stream is not entered as that, wants
/// confirmation.
void check_halogenated(const Definition& definition, const EffectDefinition& effect,
                       const ReadForm& form, const ReadContext& context,
                       entries::Refusals& refusals);

/// What is suspected in a container goes with what is poured out of it: the container it goes into
/// wants confirmation, unless it is for that or the same is suspected in it.
void check_passed_on(const EffectDefinition& effect, const ReadForm& form,
                     const ReadContext& context, entries::Refusals& refusals);

}  // namespace benchwarden::forms
