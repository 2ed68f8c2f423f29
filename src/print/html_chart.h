#pragma once

#include <string>

#include "document/blocks.h"

namespace benchwarden::print {

/// One <figure> with the chart as <svg>, black and grey on white; "" where it has no point or bar.
std::string html_chart(const document::Chart& chart);
std::string html_bar_chart(const document::BarChart& chart);

/// One <figure> with the code as <svg> and its words below; the words alone where the content is
/// more than a code holds.
std::string html_scan_code(const document::ScanCode& code);

}  // namespace benchwarden::print
