#pragma once

#include <vector>

#include "print/band.h"
#include "print/font_metrics.h"

namespace benchwarden::print {

/// Gives every link its target and every page number its digits, now that the pages are known. A
/// link to an anchor that is nowhere is left out; of an anchor given twice the first place counts.
void resolve_references(std::vector<Page>& pages, const FontMetrics& font);

}  // namespace benchwarden::print
