#include "print/label_parts.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "print/page_flow.h"
#include "print/pictogram_rows.h"
#include "print/symbol_draws.h"
#include "print/word_wrap.h"

namespace benchwarden::print {
namespace {

class PartsBuilder {
 public:
  PartsBuilder(const document::Label& label, const LabelSizes& sizes, const Typesetter& type)
      : label_(label), sizes_(sizes), type_(type) {}

  LabelParts run(const LabelCode& code) {
    add_words();
    part("name", [&] { add_text(label_.name, fitted(label_.name, sizes_.name, sizes_.text)); });
    part("pictograms", [&] { add_pictograms(); });
    part("facts", [&] {
      for (const document::LabelFact& fact : label_.facts) add_fact(fact);
    });
    part("source of its pictograms", [&] { add_text(label_.pictograms_source, small()); });
    part("warnings", [&] { add_texts(label_.warnings, strong()); });
    part("remarks", [&] { add_texts(label_.remarks, small()); });
    part("further remarks", [&] {
      std::vector<std::string> texts;
      for (const std::size_t one : sizes_.if_room) texts.push_back(label_.if_room[one]);
      add_texts(texts, small());
    });
    add_bottom(code);
    return std::move(parts_);
  }

 private:
  [[nodiscard]] TextStyle small() const { return {sizes_.text, Weight::kNormal}; }
  [[nodiscard]] TextStyle strong() const { return {sizes_.text, Weight::kStrong}; }

  /// As large as wanted, or as lets the widest word of the text fit, but not below the least.
  [[nodiscard]] TextStyle fitted(const std::string& text, Mpt wanted, Mpt least) const {
    const Mpt wide = widest_word(type_.printable(text), wanted, type_.font());
    const Mpt size = wide > type_.width() ? wanted * type_.width() / wide : wanted;
    return {std::max(size, least), Weight::kStrong};
  }

  /// Runs what adds a part to the top, sets it apart from what stands above and measures it.
  template <class Add>
  void part(std::string_view name, const Add& add) {
    const Mpt before = parts_.top.height;
    const std::size_t draws = parts_.top.draws.size();
    if (before > 0) parts_.top.height += sizes_.text / 3;
    add();
    if (parts_.top.draws.size() == draws) parts_.top.height = before;  // it has nothing to say
    parts_.heights.push_back({name, parts_.top.height - before});
  }

  void add_text(const std::string& text, const TextStyle& style) {
    if (text.empty()) return;
    type_.add_lines(parts_.top, type_.lines(text, type_.width(), style), 0, style);
  }

  void add_texts(const std::vector<std::string>& texts, const TextStyle& style) {
    for (const std::string& text : texts) {
      if (&text != &texts.front()) parts_.top.height += style.size / 4;
      add_text(text, style);
    }
  }

  void add_words() {
    const TextStyle style = fitted(label_.words, sizes_.words, sizes_.words_least);
    const std::string words = type_.printable(label_.words);
    parts_.word_too_wide = widest_word(words, style.size, type_.font()) > type_.width();
    part("words", [&] { add_text(label_.words, style); });
  }

  void add_pictograms() {
    const PictogramRows rows =
        arrange_pictograms(label_.pictograms.size(), type_.width(), sizes_.pictogram);
    for (std::size_t i = 0; i < rows.places.size(); ++i) {
      const Point at{rows.places[i].x, rows.places[i].y + parts_.top.height};
      auto draws = pictogram_draws(label_.pictograms[i].symbol, at, sizes_.pictogram);
      std::move(draws.begin(), draws.end(), std::back_inserter(parts_.top.draws));
    }
    parts_.top.height += rows.height;
  }

  /// The value beside its label where it has room there, else below.
  void add_fact(const document::LabelFact& fact) {
    Band& top = parts_.top;
    const std::string label = type_.printable(fact.label);
    const std::string value = type_.printable(fact.value);
    const Mpt beside = type_.width_of(label, sizes_.text) + sizes_.text / 2;
    if (fact.weight == document::LabelFact::Weight::kLarge) {
      add_text(fact.label, small());
      add_text(fact.value, fitted(fact.value, sizes_.name, sizes_.text));
    } else if (fact.value.empty()) {
      add_line_to_write_on(fact.label, beside);
    } else if (beside + type_.width_of(value, sizes_.text) <= type_.width()) {
      top.draws.emplace_back(type_.line(label, 0, top.height, small()));
      top.draws.emplace_back(type_.line(value, beside, top.height, strong()));
      top.height += type_.line_height(sizes_.text);
    } else {
      add_text(fact.label, small());
      add_text(fact.value, strong());
    }
  }

  void add_line_to_write_on(const std::string& label, Mpt beside) {
    Band& top = parts_.top;
    const Mpt room = type_.layout().label.write_height;
    const bool has_room = beside + 3 * room <= type_.width();
    if (has_room) {
      const Mpt text_height = type_.line_height(sizes_.text);
      top.height += std::max<Mpt>(room - text_height, 0);
    }
    add_text(label, small());
    if (!has_room) top.height += room;
    const Mpt y = top.height - sizes_.text / 5;
    top.draws.emplace_back(
        LineDraw{has_room ? beside : 0, y, type_.width(), y, type_.layout().frame_width, 100});
  }

  /// The quiet zone of the code may reach into the margin, which is as blank as it.
  void add_bottom(const LabelCode& code) {
    Band& bottom = parts_.bottom;
    const Mpt quiet = kQuietModules * code.module;
    const Mpt inset = std::max<Mpt>(quiet - type_.layout().label.margin, 0);
    const Mpt beside = inset + code.side() + quiet;
    const Mpt width = type_.width() - beside;
    const Band text = width > 0 ? id_and_foot(width, code.side()) : Band{};
    bottom.height = quiet + std::max(code.side(), text.height) + inset;
    bottom.draws.emplace_back(qr_draw(code.rows, {inset, quiet}, code.module));
    for (const Draw& draw : text.draws) {
      bottom.draws.push_back(shifted(draw, {beside, quiet}));
    }
    parts_.heights.push_back({"id and foot lines", text.height});
  }

  /// The id as large as the room beside the code allows.
  [[nodiscard]] Band id_and_foot(Mpt width, Mpt room) const {
    Band text;
    const std::string id = type_.printable(label_.id);
    for (Mpt size = type_.layout().label.id_size; size >= sizes_.id; size -= points(1)) {
      text = id_and_foot_in(id, width, size);
      if (text.height <= room && type_.width_of(id, size) <= width) return text;
    }
    return id_and_foot_in(id, width, sizes_.id);
  }

  [[nodiscard]] Band id_and_foot_in(const std::string& id, Mpt width, Mpt size) const {
    Band text;
    const TextStyle style{size, Weight::kStrong};
    type_.add_lines(text, type_.lines(id, width, style), 0, style);
    for (const std::string& line : label_.foot) {
      type_.add_lines(text, type_.lines(line, width, small()), 0, small());
    }
    return text;
  }

  const document::Label& label_;
  const LabelSizes& sizes_;
  const Typesetter& type_;
  LabelParts parts_;
};

}  // namespace

LabelParts label_parts(const document::Label& label, const LabelCode& code, const LabelSizes& sizes,
                       const Typesetter& type) {
  return PartsBuilder(label, sizes, type).run(code);
}

}  // namespace benchwarden::print
