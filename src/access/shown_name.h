#pragma once

#include <string>

#include "access/access.h"

namespace benchwarden::access {

/// How persons are called on screens and paper.
enum class NamesShown { kWhole, kInitials };

/// The name; "A. E. (p3)" where only initials are shown; the id where no name is kept.
std::string shown_name(const Person& person, NamesShown how);

}  // namespace benchwarden::access
