#include "document/contents.h"

#include <variant>

namespace benchwarden::document {

const EntryIndex* find_entry_index(const Document& document) {
  for (const Section& section : document.sections) {
    for (const Block& block : section.blocks) {
      if (const auto* index = std::get_if<EntryIndex>(&block)) return index;
    }
  }
  return nullptr;
}

std::vector<ContentsLine> contents_lines(const Contents& contents,
                                         const std::vector<HeadingPlace>& headings,
                                         std::size_t next, const EntryIndex* index) {
  std::vector<ContentsLine> lines;
  for (; next < headings.size(); ++next) {
    const HeadingPlace& heading = headings[next];
    if (heading.level <= contents.depth) {
      lines.push_back({heading.level, heading.text, heading.anchor});
    }
  }
  if (index != nullptr) lines.push_back({1, index->title, std::string(kEntryIndexAnchor)});
  return lines;
}

}  // namespace benchwarden::document
