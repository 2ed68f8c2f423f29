#include "document/lead_in.h"

#include <variant>

namespace benchwarden::document {
namespace {

template <class Kind>
bool holds(const Section& section, std::size_t block) {
  return std::holds_alternative<Kind>(section.blocks[block]);
}

}  // namespace

bool leads_in(const Section& section, std::size_t block) {
  if (block == 0 || block + 1 >= section.blocks.size()) {
    return false;
  }
  return holds<Paragraph>(section, block) && holds<Heading>(section, block - 1) &&
         !holds<Paragraph>(section, block + 1) && !holds<Heading>(section, block + 1);
}

}  // namespace benchwarden::document
