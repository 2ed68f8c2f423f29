#include "print/references.h"

#include <optional>
#include <string>
#include <unordered_map>
#include <utility>

namespace benchwarden::print {
namespace {

using Spots = std::unordered_map<std::string, Spot>;

Spots find_spots(const std::vector<Page>& pages) {
  Spots spots;
  for (std::size_t page = 0; page < pages.size(); ++page) {
    for (const AnchorPlace& place : pages[page].anchors) {
      spots.emplace(place.anchor, Spot{page, place.y});
    }
  }
  return spots;
}

std::optional<Spot> find_spot(const Spots& spots, const std::string& anchor) {
  const auto found = spots.find(anchor);
  return found == spots.end() ? std::nullopt : std::optional(found->second);
}

/// The number at the right, and dots that stand one below the other on all lines.
void add_page_number(std::vector<Draw>& draws, const PageNumberDraw& wanted, const Spot& spot,
                     const FontMetrics& font) {
  std::string number = std::to_string(spot.page + 1);
  const Mpt left = wanted.right - font.width(number, wanted.size);
  const Mpt dot = font.width(" .", wanted.size);
  const Mpt dots_right = (left - wanted.size / 2) / dot * dot;
  std::string dots;
  for (Mpt x = dots_right - dot; x >= wanted.x; x -= dot) dots += " .";
  const Mpt dots_left = dots_right - font.width(dots, wanted.size);
  draws.emplace_back(TextDraw{dots_left, wanted.y, wanted.size, Weight::kNormal, std::move(dots)});
  draws.emplace_back(TextDraw{left, wanted.y, wanted.size, Weight::kNormal, std::move(number)});
}

}  // namespace

void resolve_references(std::vector<Page>& pages, const FontMetrics& font) {
  const Spots spots = find_spots(pages);
  for (Page& page : pages) {
    std::vector<Draw> draws;
    draws.reserve(page.draws.size());
    for (Draw& draw : page.draws) {
      if (auto* link = std::get_if<LinkDraw>(&draw)) {
        link->target = find_spot(spots, link->anchor);
        if (!link->target) continue;
      } else if (const auto* number = std::get_if<PageNumberDraw>(&draw)) {
        const auto spot = find_spot(spots, number->anchor);
        if (spot) add_page_number(draws, *number, *spot, font);
        continue;
      }
      draws.push_back(std::move(draw));
    }
    page.draws = std::move(draws);
  }
}

}  // namespace benchwarden::print
