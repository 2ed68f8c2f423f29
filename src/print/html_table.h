#pragma once

#include <string>

#include "document/table.h"

namespace benchwarden::print {

/// One <table>; the total rows at its end form its foot.
std::string html_table(const document::Table& table);

}  // namespace benchwarden::print
