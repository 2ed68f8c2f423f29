#include "document/headings.h"

#include <cassert>
#include <variant>

namespace benchwarden::document {

std::vector<HeadingPlace> ordered_headings(const Document& document) {
  std::vector<HeadingPlace> places;
  std::vector<int> open;  // levels as written, of the headings the current one stands under
  for (const Section& section : document.sections) {
    for (const Block& block : section.blocks) {
      const auto* heading = std::get_if<Heading>(&block);
      if (heading == nullptr) {
        continue;
      }
      assert(heading->level >= 1 && heading->level <= 4);
      while (!open.empty() && open.back() >= heading->level) {
        open.pop_back();
      }
      open.push_back(heading->level);
      const std::string number = std::to_string(places.size() + 1);
      places.push_back({static_cast<int>(open.size()), heading->text,
                        heading->anchor.empty() ? "heading_" + number : heading->anchor});
    }
  }
  return places;
}

}  // namespace benchwarden::document
