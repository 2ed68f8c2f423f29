#pragma once

#include "reports/collection_sheet.h"
#include "tallies/content_age.h"

namespace benchwarden::reports {

/// What the book tells of a container that is handed over, by a moment (exclusive): its stream and
/// hazards, since when waste stands in it, what is suspected and what was tested. Amounts stay
/// empty.
SheetLoad load_told(const tallies::State& state, tallies::ContentAges& ages, const base::Zone& zone,
                    const std::string& container, base::Instant until);

}  // namespace benchwarden::reports
