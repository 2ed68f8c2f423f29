#pragma once

#include <string>
#include <vector>

#include "document/document.h"

namespace benchwarden::print {

/// A drum of 205 L with two pictograms.
document::Label drum_label();
/// A tag with a due date, without pictograms.
document::Label tool_label();
document::Document labels(const std::vector<document::Label>& labels);

}  // namespace benchwarden::print
