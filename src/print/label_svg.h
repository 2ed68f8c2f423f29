#pragma once

#include <string>

#include "base/result.h"
#include "document/document.h"
#include "print/pdf.h"

namespace benchwarden::print {

/// The labels of the document as one drawing, as they are on that paper, page below page. Errors as
/// to_pdf.
base::Result<std::string> labels_to_svg(const document::Document& document,
                                        const PdfOptions& options);

}  // namespace benchwarden::print
