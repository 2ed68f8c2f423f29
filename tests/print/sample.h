#pragma once

#include <string>

#include "document/document.h"
#include "print/font_metrics.h"
#include "print/layout.h"
#include "print/pdf.h"

namespace benchwarden::print {

std::string read_file(const std::string& path);

/// How often `part` stands in `text`.
std::size_t count(const std::string& text, const std::string& part);

/// DejaVu Sans, as a whole.
const std::string& sample_font();
const FontMetrics& sample_metrics();

/// reports/layout/report.toml as it is.
Layout sample_layout();

PdfOptions sample_options(Paper paper = Paper::kA4);

/// A month's report of an invented workshop with every kind of block in it.
document::Document sample_document();

/// A document of one table: two columns, `row_count` rows "row 1", "row 2" …, then a total.
document::Document long_table(int row_count);

}  // namespace benchwarden::print
