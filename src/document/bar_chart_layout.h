#pragma once

#include "document/bar_chart.h"
#include "document/chart_layout.h"

namespace benchwarden::document {

/// The bars as lines and texts, the same for paper and screen: outlined, light grey within, each
/// with its value above and its name below. Where they do not fit side by side, values and names
/// are turned; a name still too long ends in "…". Without any bar there is nothing.
ChartLayout lay_out_bar_chart(const BarChart& chart);

}  // namespace benchwarden::document
