#include "print/table_columns.h"

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <numeric>

#include "print/word_wrap.h"

namespace benchwarden::print {
namespace {

using document::Align;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// In heights of the letters; a longer word (a digest, a note without a blank) may break.
constexpr Mpt kLongestWord = 12;

/// What a column wants: `natural` lets every cell stand on one line, `common` nine of ten cells,
/// `word` breaks no word of a cell.
struct Need {
  Mpt word = 0;
  Mpt natural = 0;
  Mpt common = 0;
  Mpt fraction = 0;
  bool shrinks = false;
};

/// Strong text is outlined, which adds a little on both sides.
Mpt with_outline(Mpt width, Mpt size) { return width + size / 20; }

class NeedOfCells {
 public:
  NeedOfCells(Align align, Mpt size, const FontMetrics& font)
      : align_(align), size_(size), font_(font) {}

  void add(std::string_view text) {
    word_ = std::max(word_, std::min(widest_word(text, size_, font_), kLongestWord * size_));
    const auto mark = align_ == Align::kDecimal ? decimal_mark(text) : std::nullopt;
    if (!mark) {
      wholes_.push_back(font_.width(text, size_));
      return;
    }
    before_ = std::max(before_, font_.width(text.substr(0, *mark), size_));
    after_ = std::max(after_, font_.width(text.substr(*mark), size_));
  }
  Need need() {
    std::sort(wholes_.begin(), wholes_.end());
    const Mpt whole = wholes_.empty() ? 0 : wholes_.back();
    const Mpt common = wholes_.empty() ? 0 : wholes_[wholes_.size() * 9 / 10];
    return {with_outline(word_, size_), with_outline(std::max(whole, before_ + after_), size_),
            with_outline(std::max(word_, common), size_), after_, align_ == Align::kText};
  }

 private:
  Align align_;
  Mpt size_;
  const FontMetrics& font_;
  std::vector<Mpt> wholes_;
  Mpt word_ = 0;
  Mpt before_ = 0;
  Mpt after_ = 0;
};

Need need_of(const document::Table& table, std::size_t index, Mpt size, const FontMetrics& font) {
  const document::Column& column = table.columns[index];
  NeedOfCells cells(column.align, size, font);
  for (const document::Row& row : table.rows) {
    if (row.kind != document::RowKind::kNote) {
      assert(row.cells.size() == table.columns.size());
      cells.add(row.cells[index].text);
    }
  }
  Need need = cells.need();
  const Mpt heading =
      std::max({width_in_two_lines(column.heading, size, font),
                widest_word(column.heading, size, font), font.width(column.unit, size)});
  need.word = std::max(need.word, with_outline(heading, size));
  need.natural = std::max(need.natural, with_outline(heading, size));
  need.common = std::max(need.common, with_outline(heading, size));
  return need;
}

Mpt sum(const std::vector<Mpt>& widths) {
  return std::accumulate(widths.begin(), widths.end(), Mpt{0});
}

/// Shares `room` among columns so that those who need less than an equal share get what they
/// need and the others an equal share of the rest.
void share(std::vector<Mpt>& widths, std::vector<std::size_t> open, Mpt room) {
  while (!open.empty()) {
    const Mpt equal = room / static_cast<Mpt>(open.size());
    const auto modest = std::partition(open.begin(), open.end(),
                                       [&](std::size_t column) { return widths[column] > equal; });
    if (modest == open.end()) {
      for (const std::size_t column : open) {
        widths[column] = equal;
      }
      return;
    }
    for (auto column = modest; column != open.end(); ++column) {
      room -= widths[*column];
    }
    open.erase(modest, open.end());
  }
}

/// Gives the text columns what their longest words need; then, of what is left, what their common
/// cells need, so that one long cell does not wrap the many short ones beside it; and last what
/// their longest cells need.
void share_by_need(std::vector<Mpt>& widths, const std::vector<Need>& needs,
                   const std::vector<std::size_t>& texts, Mpt room) {
  for (const std::size_t column : texts) {
    widths[column] = 0;
  }
  for (const Mpt Need::*wanted : {&Need::word, &Need::common, &Need::natural}) {
    std::vector<Mpt> more(widths.size());
    for (const std::size_t column : texts) {
      more[column] = std::max(Mpt{0}, needs[column].*wanted - widths[column]);
    }
    share(more, texts, room);
    for (const std::size_t column : texts) {
      widths[column] += more[column];
      room -= more[column];
    }
  }
}

/// A heading that was to break into two lines stands on one where there is room.
Mpt straighten_headings(std::vector<Mpt>& widths, const document::Table& table, Mpt size, Mpt room,
                        const FontMetrics& font) {
  for (std::size_t i = 0; i < widths.size(); ++i) {
    const Mpt whole = with_outline(font.width(table.columns[i].heading, size), size);
    const Mpt more = std::max(Mpt{0}, whole - widths[i]);
    if (more <= room) {
      widths[i] += more;
      room -= more;
    }
  }
  return room;
}

/// Number columns get a little of the room left over, so that figures do not crowd; at most
/// `most` each and half of the room together.
Mpt loosen(std::vector<Mpt>& widths, const document::Table& table, Mpt room, Mpt most) {
  const Mpt each = std::min(most, room / (2 * static_cast<Mpt>(widths.size())));
  for (std::size_t i = 0; i < widths.size(); ++i) {
    if (table.columns[i].align != Align::kText) {
      widths[i] += each;
      room -= each;
    }
  }
  return room;
}

/// Room left over goes to the text columns by their width, or evenly where there is none.
void spread(std::vector<Mpt>& widths, const std::vector<std::size_t>& texts, Mpt room) {
  if (texts.empty()) {
    for (Mpt& width : widths) {
      width += room / static_cast<Mpt>(widths.size());
    }
    return;
  }
  Mpt total = 0;
  for (const std::size_t column : texts) {
    total += widths[column];
  }
  for (const std::size_t column : texts) {
    widths[column] +=
        total == 0 ? room / static_cast<Mpt>(texts.size()) : room * widths[column] / total;
  }
}

}  // namespace

std::optional<std::size_t> decimal_mark(std::string_view text) {
  std::optional<std::size_t> end;
  for (std::size_t i = text.size(); i-- > 0;) {
    const bool between =
        i > 0 && i + 1 < text.size() && is_digit(text[i - 1]) && is_digit(text[i + 1]);
    if (between && (text[i] == '.' || text[i] == ',')) {
      return i;
    }
    if (!end && is_digit(text[i])) {
      end = i + 1;
    }
  }
  return end;
}

std::optional<std::vector<ColumnPlace>> place_columns(const document::Table& table, Mpt width,
                                                      Mpt size, const FontMetrics& font) {
  assert(!table.columns.empty());
  const auto count = static_cast<Mpt>(table.columns.size());
  std::vector<Need> needs;
  std::vector<Mpt> widths;
  std::vector<std::size_t> texts;
  Mpt fixed = 2 * kCellPadding * count;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    needs.push_back(need_of(table, i, size, font));
    widths.push_back(needs[i].natural);
    if (needs[i].shrinks) {
      texts.push_back(i);
    } else {
      fixed += needs[i].natural;
    }
  }
  if (width - fixed < static_cast<Mpt>(texts.size()) * 3 * size) {
    return std::nullopt;
  }
  share_by_need(widths, needs, texts, width - fixed);
  Mpt room = width - 2 * kCellPadding * count - sum(widths);
  room = straighten_headings(widths, table, size, room, font);
  room = loosen(widths, table, room, 2 * size);
  spread(widths, texts, room);
  std::vector<ColumnPlace> places;
  Mpt left = 0;
  for (std::size_t i = 0; i < widths.size(); ++i) {
    places.push_back({left + kCellPadding, widths[i], needs[i].fraction});
    left += widths[i] + 2 * kCellPadding;
  }
  return places;
}

}  // namespace benchwarden::print
