#pragma once

#include <string>

#include "document/document.h"

namespace benchwarden::print {

/// The document as one self-contained HTML page that reads the same by ear as by eye: one main
/// landmark, headings without gaps, captions and header cells. No script, no outside address.
std::string to_html(const document::Document& document);

/// The source expression that lets a Content-Security-Policy allow the style of these pages and
/// no other: 'sha256-…', quotes included.
std::string html_style_source();

}  // namespace benchwarden::print
