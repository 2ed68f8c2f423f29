#pragma once

#include "document/blocks.h"
#include "print/typesetter.h"

namespace benchwarden::print {

/// Appends a checklist: a band for each item, its text at the left, at the right the boxes to tick
/// and the line to write on.
void add_checklist(Flow& flow, const document::Checklist& list, const Typesetter& type);

}  // namespace benchwarden::print
