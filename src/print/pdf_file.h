#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/timestamp.h"
#include "print/band.h"

namespace benchwarden::print {

/// All a PDF file is made of. Draws are relative to the top left of the text area.
struct PdfPlan {
  std::string title;
  std::string author;
  std::string subject;
  std::string language;  ///< BCP 47
  base::Instant made_at;
  Mpt paper_width = 0;
  Mpt paper_height = 0;
  Mpt text_left = 0;  ///< from the left edge of the paper
  Mpt text_top = 0;   ///< from the top edge of the paper
  int bold_percent = 0;
  std::vector<Page> pages;  ///< at least one
};

/// The only place that knows the PDF library. Equal plans and fonts give equal bytes: the file
/// holds no clock reading but `made_at` and no random id. kInternal for a font the library cannot
/// use, kUnavailable for any other failure of it.
base::Result<std::string> write_pdf(const PdfPlan& plan, std::string_view font_bytes);

}  // namespace benchwarden::print
