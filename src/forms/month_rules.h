#pragma once

#include <string_view>

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// The kind by which a month is closed.
inline constexpr std::string_view kMonthClose = "month-close";

/// A month is closed when it is over, not before the book begins, and once, as long as that entry
/// stands. Where the entry has a digest of the figures, they are those of the month when it comes
/// in: nobody signs what changed since it was looked at. A size of the book stands only beside the
/// digest of the figures that the book had at that size, since what came later is told by it. A
/// correction changes none of these: the fields are fixed.
void check_month_close(const Definition& definition, const ReadForm& form, const Original& original,
                       const ReadContext& context, entries::Refusals& refusals);

}  // namespace benchwarden::forms
