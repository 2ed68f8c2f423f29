#pragma once

#include <string>
#include <vector>

#include "document/document.h"

namespace benchwarden::document {

struct HeadingPlace {
  int level = 1;  ///< 1 … 4
  std::string text;
  std::string anchor = {};  ///< its own, or "heading_N", which no block can be given
};

/// The headings in reading order with levels that never skip one: a level-3 heading straight
/// under a level-1 heading counts as level 2, and so do its siblings. Readers by ear and
/// bookmarks rely on that.
std::vector<HeadingPlace> ordered_headings(const Document& document);

}  // namespace benchwarden::document
