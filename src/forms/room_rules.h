#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// What goes into a container and is more than there is room for by the book, its capacity less
/// what stands on its log, wants confirmation of that container. Without amounts a transfer moves
/// all that stands on the log it leaves. A mass counts by the density of the container's stream. Of
/// a correction only what it gives is judged, against the log as it stood just before its target.
void check_room(const EffectDefinition& effect, const ReadForm& form, const ReadContext& context,
                entries::Refusals& refusals);

/// A reading of more than the container takes to the brim wants confirmation.
void check_reading(const EffectDefinition& effect, const ReadForm& form, const ReadContext& context,
                   entries::Refusals& refusals);

}  // namespace benchwarden::forms
