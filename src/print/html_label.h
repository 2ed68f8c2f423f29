#pragma once

#include <string>

#include "document/label.h"

namespace benchwarden::print {

/// One <section> that says what stands on the label, in its order, with its pictograms and code as
/// <svg> that are told in words, too.
std::string html_label(const document::Label& label);

}  // namespace benchwarden::print
