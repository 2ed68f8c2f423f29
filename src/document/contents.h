#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "document/document.h"
#include "document/headings.h"

namespace benchwarden::document {

/// Leads to the index of entries; no block can be given this name.
inline constexpr std::string_view kEntryIndexAnchor = "entry_index";

/// The index of entries of the document, if it has one.
const EntryIndex* find_entry_index(const Document& document);

struct ContentsLine {
  int level = 1;
  std::string text;
  std::string anchor;
};

/// What a list of contents names: the headings from number `next` on (from 0) that are not deeper
/// than the list goes, and last the index of entries.
std::vector<ContentsLine> contents_lines(const Contents& contents,
                                         const std::vector<HeadingPlace>& headings,
                                         std::size_t next, const EntryIndex* index);

}  // namespace benchwarden::document
