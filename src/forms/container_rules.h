#pragma once

#include "forms/rules.h"

namespace benchwarden::forms {

/// What an effect may do to containers, beyond what each field says of itself:
/// - one entry names a container once (nothing is moved into itself, no load is taken twice);
/// - waste that has been counted does not go back into a working bin, where it would count again;
/// - an amount can be turned into what the container's stream is counted by: a volume for liquids,
///   a mass for solids, the other one only where the stream has a density;
/// - what goes from one container into another stays in its stream, or that is confirmed.
void check_containers(const Definition& definition, const ReadForm& form,
                      const ReadContext& context, entries::Refusals& refusals);

}  // namespace benchwarden::forms
