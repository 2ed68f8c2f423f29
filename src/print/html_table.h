#pragma once

#include <string>

#include "document/table.h"
#include "print/html_links.h"

namespace benchwarden::print {

/// One <table>; the total rows at its end form its foot.
std::string html_table(const document::Table& table, const HtmlLinks& links);

}  // namespace benchwarden::print
