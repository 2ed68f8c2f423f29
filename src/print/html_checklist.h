#pragma once

#include <string>

#include "document/blocks.h"

namespace benchwarden::print {

/// One <table>: what is asked, and beside it the answers as "☐ yes" and a line to write on.
std::string html_checklist(const document::Checklist& list);

}  // namespace benchwarden::print
