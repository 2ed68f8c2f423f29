#include "document/entries_told.h"

#include <variant>

namespace benchwarden::document {

std::set<std::uint64_t> entries_told(const Document& document) {
  std::set<std::uint64_t> told;
  for (const Section& section : document.sections) {
    for (const Block& block : section.blocks) {
      const auto* table = std::get_if<Table>(&block);
      if (table == nullptr) continue;
      for (const Row& row : table->rows) {
        if (row.entry != 0) told.insert(row.entry);
      }
    }
  }
  return told;
}

}  // namespace benchwarden::document
