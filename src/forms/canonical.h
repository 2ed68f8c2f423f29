#pragma once

#include <vector>

#include "entries/entry.h"

namespace benchwarden::forms {

/// The order in which a content holds its fields, columns and readings: by name, as RFC 8785
/// writes them and `read_leaf` gives them back, so that equal contents compare equal. The order
/// for people is that of the definition.
void sort_canonically(entries::Fields& fields);
void sort_canonically(std::vector<entries::AsRead>& readings);

}  // namespace benchwarden::forms
