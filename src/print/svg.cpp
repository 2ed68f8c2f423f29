#include "print/svg.h"

namespace benchwarden::print {

std::string to_svg(const document::Document&) { return ""; }

}  // namespace benchwarden::print
