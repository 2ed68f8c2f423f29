#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// An entry that names a finding names one that stands when it is recorded: an acknowledgement is
/// of one episode and lapses with it. A correction may leave named what stood when it was recorded.
void check_finding(const ReadForm& form, const Original& original, const ReadContext& context,
                   entries::Refusals& refusals);

}  // namespace benchwarden::forms
