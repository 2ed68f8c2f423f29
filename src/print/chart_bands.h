#pragma once

#include "document/bar_chart.h"
#include "document/chart.h"
#include "print/typesetter.h"

namespace benchwarden::print {

/// Each appends a chart as one band that no page break cuts; nothing where it has no point or bar.
void add_chart(Flow& flow, const document::Chart& chart, const Typesetter& type);
void add_bar_chart(Flow& flow, const document::BarChart& chart, const Typesetter& type);

}  // namespace benchwarden::print
