#pragma once

#include <vector>

#include "base/result.h"
#include "document/document.h"
#include "print/band.h"
#include "print/font_metrics.h"
#include "print/layout.h"
#include "print/paper.h"

namespace benchwarden::print {

/// The labels of a document on that paper: each on a page of its own, or on A4 and Letter as many
/// as a sheet holds, with marks to cut by, in their order but by size, the smallest first. Draws
/// are relative to the edge of the paper. Nothing is ever cut off: kInvalid names the first label
/// that does not fit, what is too long and which paper would do. kInternal for no label at all.
base::Result<std::vector<Page>> label_pages(const document::Document& document, Paper paper,
                                            const Layout& layout, const FontMetrics& font);

/// Tells in each label what of it has no room on that paper; nothing where it does not fit at all.
void tell_left_out(document::Document& document, Paper paper, const Layout& layout,
                   const FontMetrics& font);

}  // namespace benchwarden::print
