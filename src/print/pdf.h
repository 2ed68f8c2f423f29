#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "base/timestamp.h"
#include "document/document.h"
#include "print/layout.h"
#include "print/paper.h"

namespace benchwarden::print {

struct PdfOptions {
  Paper paper = Paper::kA4;
  std::string_view font_bytes;  ///< one TrueType font with Unicode; embedded in part
  base::Instant made_at;        ///< the only time written into the file
  Layout layout;
};

/// The document as PDF. Pages break at the same places on both papers, because the text area fits
/// into what A4 and Letter have in common. Labels: one on a page of the small papers, a sheet of
/// them on A4 and Letter. Equal input gives equal bytes. kInternal for a font that cannot be used
/// and for a table whose numbers are wider than the page; kInvalid for pages on small paper, and as
/// label_pages has it.
base::Result<std::string> to_pdf(const document::Document& document, const PdfOptions& options);

}  // namespace benchwarden::print
