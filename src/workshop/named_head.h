#pragma once

#include <optional>
#include <string>

#include "book/entry_source.h"

namespace benchwarden::workshop {

/// What is wrong with the head of the book that an entry names, as an issued report and a backup
/// do: the book never had it. Nothing where it had, where none is named, and where the tree cannot
/// be read that far, which is a fault of its own.
std::optional<std::string> fault_of_named_head(const entries::Entry& entry,
                                               const book::EntrySource& book);

}  // namespace benchwarden::workshop
