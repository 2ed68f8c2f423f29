#pragma once

#include "forms/envelope.h"

namespace benchwarden::forms {

/// The fields of a correction entry: its own and the changed ones of its target's kind. Refuses
/// what submission.h says; the result counts only when nothing was refused.
ReadForm read_correction(const Catalog& catalog, const Envelope& envelope,
                         const Surroundings& surroundings, const ReadContext& context,
                         entries::Refusals& refusals);

/// Names in the `cleared` list of a correction, in its order.
std::vector<std::string> cleared_fields(const entries::Fields& correction);

}  // namespace benchwarden::forms
