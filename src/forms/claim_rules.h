#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// A person answers, with the PIN, for what was recorded in their own name without one, once as
/// long as that answer stands, and names each entry once. A correction changes nothing of it: the
/// fields are fixed.
void check_answer(const std::string& kind, const EffectDefinition& effect, const ReadForm& form,
                  const Original& original, const Surroundings& surroundings,
                  entries::Refusals& refusals);

/// An answer is struck out by who gave it, with the PIN: nobody else takes it back.
void check_answer_strike_out(const ReadContext& context, entries::Refusals& refusals);

}  // namespace benchwarden::forms
