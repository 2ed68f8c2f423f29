#pragma once

#include "base/toml.h"
#include "forms/definition.h"

namespace benchwarden::forms {

/// What one definition must be in itself: names in form and said once, conditions about earlier
/// code fields, bands in order and exactly storable, versions that only add.
void check_definition(const Definition& definition, base::FileFaults& faults);

/// Its effects: each known, every role played by a field of the right type, and every required
/// role by a field that is always there when the effect happens.
void check_effects(const Definition& definition, base::FileFaults& faults);

/// All definitions together: each kind once, a field name with one meaning in all of them.
void check_together(const std::vector<Definition>& definitions, base::FileFaults& faults);

}  // namespace benchwarden::forms
