#pragma once

#include "document/chart.h"
#include "print/typesetter.h"

namespace benchwarden::print {

/// Appends a chart as one band that no page break cuts; nothing where it has no point.
void add_chart(Flow& flow, const document::Chart& chart, const Typesetter& type);

}  // namespace benchwarden::print
