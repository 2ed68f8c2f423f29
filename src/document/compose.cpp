#include "document/compose.h"

#include <algorithm>
#include <cassert>
#include <set>
#include <utility>
#include <variant>

namespace benchwarden::document {
namespace {

constexpr int kLevelMax = 4;

/// Makes the names of one part its own.
class Renamer {
 public:
  explicit Renamer(const Part& part) : part_(part) {}

  void operator()(Heading& heading) const {
    heading.level = std::min(heading.level + 1, kLevelMax);
    set_apart(heading.anchor);
  }
  void operator()(KeyFigures& figures) const {
    figures.name = part_.name + "/" + figures.name;
    for (KeyFigure& figure : figures.figures) set_apart(figure.link);
  }
  void operator()(Table& table) const {
    table.name = part_.name + "/" + (table.name.empty() ? table.caption : table.name);
    for (Row& row : table.rows) {
      set_apart(row.anchor);
      for (Cell& cell : row.cells) set_apart(cell.link);
    }
  }
  template <class Other>
  void operator()(Other& /*block*/) const {}

 private:
  /// Of an anchor or a link; none stays none.
  void set_apart(std::string& anchor) const {
    if (!anchor.empty()) anchor = part_.anchor + "-" + anchor;
  }

  const Part& part_;
};

bool is_of_the_whole(const Block& block) {
  return std::holds_alternative<Contents>(block) || std::holds_alternative<EntryIndex>(block);
}

std::string joined_lines(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += (text.empty() ? "" : "\n") + line;
  return text;
}

/// The heading of a part and what is told of it beyond what the cover tells of the whole.
std::vector<Block> opening(const Part& part, const std::vector<std::string>& told) {
  std::vector<Block> blocks{Heading{1, part.title, part.anchor}};
  std::vector<std::string> lines;
  for (const std::string& line : part.document.subject_lines) {
    if (std::find(told.begin(), told.end(), line) == told.end()) lines.push_back(line);
  }
  if (!lines.empty()) blocks.emplace_back(Paragraph{joined_lines(lines)});
  return blocks;
}

std::vector<Section> body_of(Part& part, const std::vector<std::string>& told) {
  std::vector<Section> sections{{opening(part, told), PageBreak::kBefore}};
  const Renamer renamer(part);
  for (Section& section : part.document.sections) {
    if (section.role != SectionRole::kBody) continue;
    std::erase_if(section.blocks, is_of_the_whole);
    for (Block& block : section.blocks) std::visit(renamer, block);
    sections.push_back(std::move(section));
  }
  return sections;
}

/// What a reader sees of a block that ends a report: equal words are the same block.
std::string words_of(const Block& block) {
  if (const auto* paragraph = std::get_if<Paragraph>(&block)) return paragraph->text;
  if (const auto* box = std::get_if<CautionBox>(&block)) {
    return box->title + "\n" + joined_lines(box->sentences) + "\n" + joined_lines(box->sources);
  }
  if (const auto* line = std::get_if<SignatureLine>(&block)) return joined_lines(line->labels);
  return "";
}

/// Adds what the section of a part says and the cover does not say yet; not its heading.
void gather(const Section& from, Section& into, std::set<std::string>& said) {
  for (const Block& block : from.blocks) {
    if (std::holds_alternative<Heading>(block)) continue;
    const std::string words = words_of(block);
    if (words.empty() || said.insert(words).second) into.blocks.push_back(block);
  }
}

void gather_endings(Section& into, const std::vector<Part>& parts) {
  std::set<std::string> said;
  for (const Block& block : into.blocks) said.insert(words_of(block));
  for (const Part& part : parts) {
    for (const Section& section : part.document.sections) {
      if (section.role == into.role) gather(section, into, said);
    }
  }
}

}  // namespace

Document compose(Document cover, std::size_t place, std::vector<Part> parts) {
  assert(place <= cover.sections.size());
  for (Section& section : cover.sections) {
    if (section.role != SectionRole::kBody) gather_endings(section, parts);
  }
  std::vector<Section> bound;
  for (Part& part : parts) {
    if (part.document.standing == Standing::kNotForIssue) cover.standing = Standing::kNotForIssue;
    std::vector<Section> body = body_of(part, cover.subject_lines);
    std::move(body.begin(), body.end(), std::back_inserter(bound));
  }
  cover.sections.insert(cover.sections.begin() + static_cast<std::ptrdiff_t>(place),
                        std::make_move_iterator(bound.begin()),
                        std::make_move_iterator(bound.end()));
  return cover;
}

}  // namespace benchwarden::document
