#pragma once

#include <string>
#include <vector>

#include "document/contents.h"
#include "print/typesetter.h"

namespace benchwarden::print {

/// Appends a list of contents, a band for each line; nothing where there is no line.
void add_contents(Flow& flow, const std::string& title,
                  const std::vector<document::ContentsLine>& lines, const Typesetter& type);

}  // namespace benchwarden::print
