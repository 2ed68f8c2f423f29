#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// Ids that come into being by use, but for those of collections (collection_rules.h). The kind
/// named like the class brings an id into being, once; where that kind has stages, by the stage
/// "opened", and "closed" ends it, once. Whatever else names the id comes after its beginning. A
/// correction leaves the beginning that other entries rest on.
void check_by_use(const Definition& definition, const ReadForm& form, const Original& original,
                  const ReadContext& context, entries::Refusals& refusals);

/// A beginning that other entries rest on is not struck out.
void check_by_use_strike_out(const Definition& definition, const entries::Fields& struck,
                             const ReadContext& context, entries::Refusals& refusals);

}  // namespace benchwarden::forms
