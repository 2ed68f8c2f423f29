#pragma once

#include <string_view>
#include <vector>

namespace benchwarden::book {

/// The steps that make book.db. Append-only: a step that was ever released is never edited.
const std::vector<std::string_view>& book_schema();
/// The steps that make derived.db, which can be deleted at any time.
const std::vector<std::string_view>& derived_schema();
/// The steps that make staged.db, which can be deleted while nothing runs.
const std::vector<std::string_view>& staged_schema();

}  // namespace benchwarden::book
