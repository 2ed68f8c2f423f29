#pragma once

#include "base/result.h"
#include "document/document.h"
#include "print/typesetter.h"

namespace benchwarden::print {

/// The whole document as strips, its title first. kInternal when a table cannot fit the width.
base::Result<Flow> flow_of(const document::Document& document, const Typesetter& type);

}  // namespace benchwarden::print
