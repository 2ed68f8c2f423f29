#pragma once

#include <vector>

#include "print/band.h"

namespace benchwarden::print {

/// The same draw further right and down.
Draw shifted(Draw draw, Point by);
/// The same draw further down.
Draw moved(Draw draw, Mpt down);

/// Cuts a flow into pages of that width and height: bands that keep with their next stay on one
/// page as long as they fit into one; a table's head is repeated where the table goes on. At
/// least one page is returned.
std::vector<Page> cut_into_pages(const Flow& flow, Mpt width, Mpt height);

}  // namespace benchwarden::print
