#pragma once

#include <string_view>

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// The kind by which a month is closed.
inline constexpr std::string_view kMonthClose = "month-close";

/// A month is closed when it is over, and once, as long as that entry stands. Where the entry has a
/// digest of the figures, they are those of the month when it comes in: nobody signs what changed
/// since it was looked at. Of a correction only what it changes is judged.
void check_month_close(const Definition& definition, const ReadForm& form, const Original& original,
                       const ReadContext& context, entries::Refusals& refusals);

}  // namespace benchwarden::forms
