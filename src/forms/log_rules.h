#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// A stated amount that leaves a container, by a transfer or a taken load, and is more than stands
/// on its log wants confirmation of that amount: the log goes below zero by it.
/// So does the mass of one that is given by volume too, where the density of its stream makes
/// another of it.
void check_log(const EffectDefinition& effect, const ReadForm& form, const ReadContext& context,
               entries::Refusals& refusals);

}  // namespace benchwarden::forms
