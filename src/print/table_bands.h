#pragma once

#include "base/result.h"
#include "document/table.h"
#include "print/typesetter.h"

namespace benchwarden::print {

/// Appends a table to the flow: caption and head keep with the first two rows, a total row with
/// the two rows before it, the detail lines of a row with their row. kInternal when the number
/// columns alone are wider than the page.
base::Status<> add_table(Flow& flow, const document::Table& table, const Typesetter& type);

}  // namespace benchwarden::print
