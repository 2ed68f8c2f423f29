#pragma once

#include <string>

#include "document/chart.h"

namespace benchwarden::print {

/// One <figure> with the chart as <svg>, black and grey on white; "" where it has no point.
std::string html_chart(const document::Chart& chart);

}  // namespace benchwarden::print
