#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// What one stage of a collection may say after the others:
/// - a container is taken once in a collection, and weighed once;
/// - only what was taken is weighed, as mass, and only a document under which something was taken
///   comes back, neither before it went;
/// - once something was taken nothing is planned, nor refused as a whole, and no plan is for a day
///   before it was told;
/// - a correction leaves what later stages rest on.
void check_collection(const Definition& definition, const EffectDefinition& effect,
                      const ReadForm& form, const Original& original, const ReadContext& context,
                      entries::Refusals& refusals);

/// Loads that were weighed, or whose document came back, are not struck out.
void check_collection_strike_out(const Definition& definition, const EffectDefinition& effect,
                                 const entries::Fields& struck, const ReadContext& context,
                                 entries::Refusals& refusals);

}  // namespace benchwarden::forms
