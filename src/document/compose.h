#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "document/document.h"

namespace benchwarden::document {

/// A document that is to be one part of another.
struct Part {
  std::string anchor;  ///< of its heading; unique among the parts and the anchors of the cover
  std::string name;    ///< for machines, before the names of its tables
  std::string title;   ///< its heading
  Document document;
};

/// Documents bound into one, before the section `place` of the cover, whose title, furniture and
/// properties it has. Each part begins a page under a heading of level 1; its own headings are one
/// level lower, its anchors and links begin with its anchor, names for machines with its name. Its
/// subject lines stand under its heading, but for those the cover has, too. Its signature, cautions
/// and methods go to the sections of the cover with these roles, in order of the parts, each block
/// once. Its contents and index are left out: the cover has its own. The whole is not for issue
/// where a part is not. Pure.
Document compose(Document cover, std::size_t place, std::vector<Part> parts);

}  // namespace benchwarden::document
