#include "print/page_flow.h"

#include <algorithm>
#include <cassert>
#include <utility>

namespace benchwarden::print {

Draw shifted(Draw draw, Point by) {
  if (auto* text = std::get_if<TextDraw>(&draw)) {
    text->x += by.x;
    text->y += by.y;
  } else if (auto* fill = std::get_if<FillDraw>(&draw)) {
    fill->x += by.x;
    fill->y += by.y;
  } else if (auto* line = std::get_if<LineDraw>(&draw)) {
    line->x1 += by.x;
    line->x2 += by.x;
    line->y1 += by.y;
    line->y2 += by.y;
  } else if (auto* area = std::get_if<AreaDraw>(&draw)) {
    for (std::vector<Point>& ring : area->rings) {
      for (Point& point : ring) point = {point.x + by.x, point.y + by.y};
    }
  } else if (auto* link = std::get_if<LinkDraw>(&draw)) {
    link->x += by.x;
    link->y += by.y;
  } else if (auto* number = std::get_if<PageNumberDraw>(&draw)) {
    number->x += by.x;
    number->right += by.x;
    number->y += by.y;
  }
  return draw;
}

Draw moved(Draw draw, Mpt down) { return shifted(std::move(draw), {0, down}); }

namespace {

/// The lowest point of a draw; a page break in a band that is too tall goes between draws.
Mpt lowest(const Draw& draw) {
  if (const auto* text = std::get_if<TextDraw>(&draw)) {
    return text->y + text->size / 3;
  }
  if (const auto* number = std::get_if<PageNumberDraw>(&draw)) {
    return number->y + number->size / 3;
  }
  if (const auto* link = std::get_if<LinkDraw>(&draw)) {
    return link->y + link->height;
  }
  if (const auto* fill = std::get_if<FillDraw>(&draw)) {
    return fill->y + fill->height;
  }
  if (const auto* line = std::get_if<LineDraw>(&draw)) {
    return std::max(line->y1, line->y2);
  }
  Mpt lowest = 0;
  for (const std::vector<Point>& ring : std::get<AreaDraw>(draw).rings) {
    for (const Point& point : ring) lowest = std::max(lowest, point.y);
  }
  return lowest;
}

/// Cuts a band taller than a page between its lines of text, for `first` of room here and `next`
/// of room on each page that follows.
std::vector<Band> cut_band(const Band& band, Mpt first, Mpt next) {
  std::vector<Draw> draws = band.draws;
  std::stable_sort(draws.begin(), draws.end(),
                   [](const Draw& a, const Draw& b) { return lowest(a) < lowest(b); });
  std::vector<Band> pieces;
  Band piece = band;
  piece.draws.clear();
  Mpt top = 0;
  Mpt bottom = 0;
  for (const Draw& draw : draws) {
    const Mpt room = pieces.empty() ? first : next;
    if (lowest(draw) - top > room && !piece.draws.empty()) {
      piece.height = bottom - top;
      pieces.push_back(piece);
      piece.draws.clear();
      piece.bookmark.reset();
      piece.anchors.clear();
      top = bottom;
    }
    bottom = std::max(bottom, lowest(draw));
    piece.draws.push_back(moved(draw, -top));
  }
  piece.height = bottom - top;
  pieces.push_back(piece);
  return pieces;
}

class Cutter {
 public:
  Cutter(const Flow& flow, Mpt width, Mpt height) : flow_(flow), width_(width), height_(height) {}

  void run() {
    for (std::size_t first = 0; first < flow_.bands.size();) {
      std::size_t end = first + 1;
      while (flow_.bands[end - 1].keep == Keep::kWithNext && end < flow_.bands.size() &&
             !flow_.bands[end].starts_page) {
        ++end;
      }
      place_group(first, end);
      first = end;
    }
    close_page();
  }
  std::vector<Page> take_pages() { return std::move(pages_); }

 private:
  struct FramePiece {
    std::size_t frame = 0;
    Mpt top = 0;
    Mpt bottom = 0;
  };

  [[nodiscard]] Mpt head_height(const Band& band) const {
    return band.table ? flow_.table_heads[*band.table].height : 0;
  }

  /// At the top of a fresh page, its repeated table head included.
  [[nodiscard]] Mpt height_on_new_page(std::size_t first, std::size_t end) const {
    Mpt total = head_height(flow_.bands[first]);
    for (std::size_t i = first; i < end; ++i) {
      total += flow_.bands[i].height + (i == first ? 0 : gap_before(i));
    }
    return total;
  }

  [[nodiscard]] Mpt height_here(std::size_t first, std::size_t end) const {
    Mpt total = gap_here(flow_.bands[first]);
    for (std::size_t i = first; i < end; ++i) {
      total += flow_.bands[i].height + (i == first ? 0 : gap_before(i));
    }
    return total;
  }

  [[nodiscard]] Mpt gap_before(std::size_t band) const {
    assert(band > 0);
    return std::max(flow_.bands[band - 1].space_after, flow_.bands[band].space_before);
  }

  /// Between what was placed last on this page and the band.
  [[nodiscard]] Mpt gap_here(const Band& band) const {
    return empty_ ? 0 : std::max(space_after_, band.space_before);
  }

  /// The end of the longest run of bands from `first` that one page can hold, at least one band.
  [[nodiscard]] std::size_t end_of_page_full(std::size_t first, std::size_t end) const {
    std::size_t fitting = end;
    while (fitting > first + 1 && height_on_new_page(first, fitting) > height_) {
      --fitting;
    }
    return fitting;
  }

  /// Keeps the bands together, or what of them one page can hold.
  void place_group(std::size_t first, std::size_t end) {
    if (flow_.bands[first].starts_page && !empty_) {
      close_page();
    }
    while (first < end) {
      const std::size_t fitting = end_of_page_full(first, end);
      place_run(first, fitting);
      first = fitting;
    }
  }

  void place_run(std::size_t first, std::size_t end) {
    const Band& leader = flow_.bands[first];
    if (height_on_new_page(first, end) > height_) {
      place_tall(leader);
      return;
    }
    if (y_ + height_here(first, end) > height_) {
      break_before(leader);
    }
    for (std::size_t i = first; i < end; ++i) {
      place(flow_.bands[i]);
    }
  }

  void break_before(const Band& band) {
    if (!empty_) {
      close_page();
    }
    if (band.table) {
      place(flow_.table_heads[*band.table]);
    }
  }

  void place_tall(const Band& band) {
    if (height_ - y_ < height_ / 4) {
      break_before(band);
    }
    const Mpt room = height_ - y_ - gap_here(band);
    for (const Band& piece : cut_band(band, room, height_ - head_height(band))) {
      if (y_ + piece.height > height_) {
        break_before(band);
      }
      place(piece);
    }
  }

  void place(const Band& band) {
    y_ += gap_here(band);
    for (const Draw& draw : band.draws) {
      page_.draws.push_back(moved(draw, y_));
    }
    if (band.bookmark) {
      page_.bookmarks.push_back({*band.bookmark, y_});
    }
    for (const std::string& anchor : band.anchors) {
      page_.anchors.push_back({anchor, y_});
    }
    if (band.entry != 0) {
      page_.entries.push_back({band.entry, y_});
    }
    if (band.frame) {
      if (framed_.empty() || framed_.back().frame != *band.frame) {
        framed_.push_back({*band.frame, y_, y_});
      }
      framed_.back().bottom = y_ + band.height;
    }
    y_ += band.height;
    space_after_ = band.space_after;
    empty_ = false;
  }

  void draw_frame(const FramePiece& piece) {
    const Frame& frame = flow_.frames[piece.frame];
    const Mpt half = frame.thickness / 2;
    const Mpt left = half;
    const Mpt right = width_ - half;
    const auto line = [&](Mpt x1, Mpt y1, Mpt x2, Mpt y2) {
      page_.draws.emplace_back(LineDraw{x1, y1, x2, y2, frame.thickness});
    };
    line(0, piece.top, width_, piece.top);
    line(0, piece.bottom, width_, piece.bottom);
    line(left, piece.top, left, piece.bottom);
    line(right, piece.top, right, piece.bottom);
    if (frame.bar > 0) {
      page_.draws.emplace_back(FillDraw{0, piece.top, frame.bar, piece.bottom - piece.top, 100});
    }
  }

  void close_page() {
    for (const FramePiece& piece : framed_) {
      draw_frame(piece);
    }
    framed_.clear();
    pages_.push_back(std::move(page_));
    page_ = Page();
    y_ = 0;
    empty_ = true;
  }

  const Flow& flow_;
  Mpt width_;
  Mpt height_;
  std::vector<Page> pages_;
  Page page_;
  std::vector<FramePiece> framed_;
  Mpt y_ = 0;
  Mpt space_after_ = 0;  ///< of the band placed last
  bool empty_ = true;
};

}  // namespace

std::vector<Page> cut_into_pages(const Flow& flow, Mpt width, Mpt height) {
  assert(width > 0 && height > 0);
  Cutter cutter(flow, width, height);
  cutter.run();
  return cutter.take_pages();
}

}  // namespace benchwarden::print
