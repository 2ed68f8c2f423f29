#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "document/contents.h"

namespace benchwarden::print {

/// A <nav> with a list of links; "" where there is no line.
std::string html_contents(const std::string& title,
                          const std::vector<document::ContentsLine>& lines);

/// A heading and a list of entry numbers, each with a link to the id beside it.
std::string html_entry_index(const document::EntryIndex& index,
                             const std::map<std::uint64_t, std::string>& entries);

}  // namespace benchwarden::print
