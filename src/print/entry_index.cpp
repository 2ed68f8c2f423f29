#include "print/entry_index.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

#include "base/text.h"
#include "document/contents.h"
#include "print/page_flow.h"

namespace benchwarden::print {
namespace {

constexpr Mpt kIndexGap = points(14);       ///< between columns
constexpr Mpt kIndexNumberGap = points(7);  ///< between an entry's number and its pages
constexpr std::size_t kIndexColumnsLeast = 4;

/// Pages that follow one another; from 0.
struct PageRange {
  std::size_t first = 0;
  std::size_t last = 0;
};
using PagesOfEntries = std::map<std::uint64_t, std::vector<PageRange>>;

std::string entry_anchor(std::uint64_t entry, std::size_t page) {
  return "entry_" + std::to_string(entry) + "_" + std::to_string(page);
}

/// Every entry with its pages; an anchor is set where a page first is about an entry.
PagesOfEntries find_entries(std::vector<Page>& pages) {
  PagesOfEntries entries;
  for (std::size_t page = 0; page < pages.size(); ++page) {
    for (const EntryPlace& place : pages[page].entries) {
      std::vector<PageRange>& ranges = entries[place.entry];
      if (!ranges.empty() && ranges.back().last == page) continue;
      pages[page].anchors.push_back({entry_anchor(place.entry, page), place.y});
      if (!ranges.empty() && ranges.back().last + 1 == page) {
        ranges.back().last = page;
      } else {
        ranges.push_back({page, page});
      }
    }
  }
  return entries;
}

std::string range_text(const PageRange& range) {
  const std::string first = std::to_string(range.first + 1);
  return range.first == range.last ? first : first + "\u2013" + std::to_string(range.last + 1);
}

/// One line of a column: an entry, and as many of its pages as fit. What is left follows on a line
/// that names the entry again, so that each line can be read alone.
struct IndexLine {
  std::uint64_t entry = 0;
  std::vector<PageRange> pages;
};

class IndexSetter {
 public:
  IndexSetter(const PagesOfEntries& entries, const Typesetter& type)
      : entries_(entries), type_(type), size_(type.layout().small_size) {
    if (entries.empty()) return;
    number_width_ = width(base::grouped_digits(std::to_string(entries.rbegin()->first)));
    Mpt widest = 0;
    for (const auto& [entry, pages] : entries) widest = std::max(widest, width_of(pages));
    const Mpt wanted = number_width_ + kIndexNumberGap + widest + kIndexGap;
    columns_ =
        std::max(kIndexColumnsLeast, static_cast<std::size_t>((type.width() + kIndexGap) / wanted));
    column_width_ = (type.width() + kIndexGap) / static_cast<Mpt>(columns_);
    make_lines();
  }

  /// `above` of the first page is taken.
  [[nodiscard]] std::vector<Band> bands(Mpt above, Mpt height) const {
    std::vector<Band> bands;
    for (std::size_t first = 0; first < lines_.size();) {
      const Mpt room = height - (bands.empty() ? above : 0);
      const auto deepest = static_cast<std::size_t>(std::max(Mpt{1}, room / pitch()));
      const std::size_t left = lines_.size() - first;
      const std::size_t depth = std::min(deepest, (left + columns_ - 1) / columns_);
      const std::size_t count = std::min(left, depth * columns_);
      bands.push_back(band(first, count, depth));
      first += count;
    }
    return bands;
  }

 private:
  [[nodiscard]] Mpt width(const std::string& text) const { return type_.width_of(text, size_); }
  [[nodiscard]] Mpt pitch() const { return type_.line_height(size_); }
  [[nodiscard]] Mpt width_of(const std::vector<PageRange>& pages) const {
    Mpt total = 0;
    for (const PageRange& range : pages) total += width(range_text(range) + ", ");
    return total;
  }

  void make_lines() {
    const Mpt room = column_width_ - kIndexGap - number_width_ - kIndexNumberGap;
    for (const auto& [entry, pages] : entries_) {
      lines_.push_back({entry, {}});
      Mpt used = 0;
      for (const PageRange& range : pages) {
        const Mpt more = width_of({range});
        if (used + more > room && used > 0) {
          lines_.push_back({entry, {}});
          used = 0;
        }
        lines_.back().pages.push_back(range);
        used += more;
      }
    }
  }

  [[nodiscard]] Band band(std::size_t first, std::size_t count, std::size_t depth) const {
    Band band;
    band.height = static_cast<Mpt>(depth) * pitch();
    for (std::size_t i = 0; i < count; ++i) {
      const Mpt left = static_cast<Mpt>(i / depth) * column_width_;
      add_line(band, lines_[first + i], left, static_cast<Mpt>(i % depth) * pitch());
    }
    return band;
  }

  void add_line(Band& band, const IndexLine& line, Mpt left, Mpt top) const {
    const std::string number = base::grouped_digits(std::to_string(line.entry));
    const Mpt numbers_right = left + number_width_;
    band.draws.emplace_back(
        type_.line(number, numbers_right - width(number), top, {size_, Weight::kStrong}));
    std::string text;
    Mpt x = numbers_right + kIndexNumberGap;
    const Mpt pages_left = x;
    for (const PageRange& range : line.pages) {
      std::string part = range_text(range);
      const Mpt part_width = width(part);
      band.draws.emplace_back(
          LinkDraw{x, top, part_width, pitch(), entry_anchor(line.entry, range.first), false});
      if (&range != &line.pages.back()) part += ", ";
      x += width(part);
      text += part;
    }
    band.draws.emplace_back(type_.line(std::move(text), pages_left, top, {size_, Weight::kNormal}));
  }

  const PagesOfEntries& entries_;
  const Typesetter& type_;
  Mpt size_;
  Mpt number_width_ = 0;
  std::size_t columns_ = kIndexColumnsLeast;
  Mpt column_width_ = 0;
  std::vector<IndexLine> lines_;
};

Band index_title(const document::EntryIndex& index, const Typesetter& type) {
  const TextStyle style = {type.layout().heading_sizes.front(), Weight::kStrong};
  const std::string anchor(document::kEntryIndexAnchor);
  Band band;
  type.add_lines(band, type.lines(index.title, type.width(), style), 0, style);
  band.height += style.size / 2;
  band.anchors = {anchor};
  band.bookmark = document::HeadingPlace{1, type.printable(index.title), anchor};
  return band;
}

}  // namespace

void add_entry_index(std::vector<Page>& pages, const document::EntryIndex& index,
                     const Typesetter& type, Mpt height) {
  const PagesOfEntries entries = find_entries(pages);
  Flow flow;
  flow.bands.push_back(index_title(index, type));
  if (entries.empty()) {
    const TextStyle style = {type.layout().body_size, Weight::kNormal};
    Band none;
    type.add_lines(none, type.lines(index.when_empty, type.width(), style), 0, style);
    flow.bands.push_back(std::move(none));
  }
  const IndexSetter setter(entries, type);
  auto bands = setter.bands(flow.bands.front().height, height);
  std::move(bands.begin(), bands.end(), std::back_inserter(flow.bands));
  auto more = cut_into_pages(flow, type.width(), height);
  std::move(more.begin(), more.end(), std::back_inserter(pages));
}

}  // namespace benchwarden::print
