#include "reports/label_document.h"

#include <algorithm>
#include <utility>

#include "base/text.h"
#include "reports/source_words.h"
#include "reports/texts.h"
#include "reports/waste_words.h"
#include "tallies/facts.h"

namespace benchwarden::reports {
namespace {

using Lines = std::vector<std::string>;

/// What is in it, as far as the register says.
std::string_view content_of(const LabelThing& thing) {
  if (thing.subject.thing_class == "cylinder") return tallies::word(thing.attributes, "gas");
  return tallies::word(thing.stream, "waste_type");
}

bool is_acute(const LabelThing& thing) {
  const std::string_view acute = tallies::word(thing.stream, "acute");
  return acute == "yes" || acute == "spill-residue";
}

class LabelWriter {
 public:
  LabelWriter(const LabelFigures& figures, const ReportData& data,
              const ReportDefinition& definition)
      : figures_(figures),
        data_(data),
        definition_(definition),
        wording_(data.wording),
        texts_(figures.frame, data.wording) {}

  [[nodiscard]] document::Label label(const LabelThing& thing) const {
    const bool container = thing.subject.thing_class == "container";
    document::Label label = container ? of_container(thing) : of_tool(thing);
    label.title = wording_.text(
        "label.title",
        {{"class", texts_.label("register-change/thing_class/" + thing.subject.thing_class)},
         {"id", thing.subject.id}});
    label.id = thing.subject.id;
    label.code = thing.subject.thing_class + "/" + thing.subject.id;
    add_foot(label, thing);
    add_cautions(label, thing);
    add_sources_of_words(label, thing);
    label.left_out_says = wording_.text("label.left_out");
    return label;
  }

 private:
  [[nodiscard]] document::Label of_container(const LabelThing& thing) const {
    document::Label label;
    add_container_words(label, thing);
    add_facts(label, thing.stream, "stream");
    mark_hazardous(label, thing);
    if (writes_hazards_by_hand(thing)) add_hazards(label);
    const bool counts = tallies::word(thing.attributes, "counts_waste") != "no";
    if (counts && !thing.retired) add_accumulation_start(label, thing);
    add_facts(label, thing.attributes, "container");
    if (!counts) add_working_bin(label, thing);
    add_pictograms(label, thing);
    const std::string apart(tallies::word(thing.stream, "keep_apart_from"));
    if (!apart.empty()) {
      label.warnings.push_back(wording_.text("label.keep_apart", {{"what", apart}}));
    }
    if (!thing.in_service) label.warnings.push_back(wording_.text("label.withdrawn"));
    add_least(label, thing);
    return label;
  }

  /// What a rule asks for, but for what is no longer in use: that comes before all else.
  void add_container_words(document::Label& label, const LabelThing& thing) const {
    const std::string stream(tallies::word(thing.stream, "name"));
    Lines words;
    for (const AskedWords& asked : thing.words) words.push_back(asked.words);
    if (thing.retired) words = {retired_text(thing)};
    label.words = words.empty() ? stream : base::join(words, "\n");
    label.name = words.empty() ? thing.name : stream;
    if (label.words.empty()) label.words = std::exchange(label.name, "");
  }

  [[nodiscard]] std::string retired_text(const LabelThing& thing) const {
    if (!thing.retired_on) return wording_.text("label.retired");
    return wording_.text("label.retired_on", {{"day", day_text(*thing.retired_on)}});
  }

  void add_sources_of_words(document::Label& label, const LabelThing& thing) const {
    if (thing.retired) return;
    for (const AskedWords& asked : thing.words) {
      label.if_room.push_back(wording_.text(
          "label.words_from", {{"source", source_words(wording_, asked.authority.citation,
                                                       asked.authority.confidence)}}));
    }
  }

  [[nodiscard]] document::Label of_tool(const LabelThing& thing) const {
    document::Label label;
    label.words = thing.name.empty() ? thing.subject.id : thing.name;
    if (!thing.in_service || thing.retired) {
      label.name = std::exchange(
          label.words, thing.retired ? retired_text(thing) : wording_.text("label.withdrawn"));
    }
    add_facts(label, thing.attributes, thing.subject.thing_class);
    if (thing.subject.thing_class == "cylinder") {
      label.warnings.push_back(wording_.text("label.not_of_the_gas"));
    }
    add_due(label, thing);
    return label;
  }

  /// The attributes that the definition lists for this class, in its order, as far as entered.
  void add_facts(document::Label& label, const entries::Fields& attributes,
                 std::string_view section_id) const {
    const auto section =
        std::find_if(definition_.sections.begin(), definition_.sections.end(),
                     [&](const SectionDefinition& one) { return one.id == section_id; });
    for (const std::string& name : section->field_order) {
      const entries::FieldValue* value = entries::find_field(attributes, name);
      if (value == nullptr) continue;
      const std::string path = "register-change/" + name;
      label.facts.push_back({texts_.label(path), texts_.value(path, *value), name});
    }
  }

  /// The code as reports print it: with the mark of hazardous waste.
  static void mark_hazardous(document::Label& label, const LabelThing& thing) {
    for (document::LabelFact& fact : label.facts) {
      if (fact.name != "low_code") continue;
      fact.raw = std::exchange(fact.value, code_text(thing.facts));
    }
  }

  void add_accumulation_start(document::Label& label, const LabelThing& thing) const {
    if (!thing.tells_start) {
      label.remarks.push_back(wording_.text("label.no_start"));
      return;
    }
    document::LabelFact fact{wording_.text("label.accumulation_start"), "", "accumulation_start"};
    fact.by_hand = wording_.text("label.by_hand");
    if (thing.accumulation_start) {
      fact.value = day_text(*thing.accumulation_start);
      fact.raw = base::format_date(*thing.accumulation_start);
    }
    label.facts.push_back(std::move(fact));
  }

  /// No one but the data sheet knows them: a line to write on.
  void add_hazards(document::Label& label) const {
    document::LabelFact fact{wording_.text("label.hazards"), "", "hazards"};
    fact.by_hand = wording_.text("label.by_hand");
    label.facts.push_back(std::move(fact));
  }

  void add_working_bin(document::Label& label, const LabelThing& thing) const {
    label.warnings.push_back(wording_.text("label.working_bin"));
    if (tallies::word(thing.attributes, "emptied_daily") == "yes") {
      label.warnings.push_back(wording_.text("label.emptied_daily"));
    }
  }

  void add_pictograms(document::Label& label, const LabelThing& thing) const {
    for (const std::string& code : sourced_pictograms(thing.stream)) {
      label.pictograms.push_back(
          {code, texts_.label("register-change/pictograms/pictogram/" + code)});
    }
    const bool entered = entries::find_field(thing.stream, "pictograms") != nullptr;
    if (!label.pictograms.empty()) {
      label.pictograms_source = wording_.text(
          "label.pictograms_from",
          {{"source", std::string(tallies::word(thing.stream, "pictograms_source"))}});
    } else if (entered) {
      label.remarks.push_back(wording_.text("label.pictograms_no_source"));
    }
  }

  void add_least(document::Label& label, const LabelThing& thing) const {
    const auto capacity = tallies::measure(thing.attributes, "capacity_l", "l");
    if (capacity) label.least = data_.label_sizes.of(capacity->value.thousandths);
  }

  void add_due(document::Label& label, const LabelThing& thing) const {
    const std::string as_of = day_text(figures_.as_of_day);
    if (thing.retired || (!thing.in_service && !thing.due)) return;
    if (!thing.due) {
      label.remarks.push_back(wording_.text("label.nothing_due", {{"day", as_of}}));
      return;
    }
    const bool past = thing.due->day < figures_.as_of_day;
    document::LabelFact fact{wording_.text(past ? Key("label.was_due") : Key("label.next_due")),
                             day_text(thing.due->day), past ? "was_due" : "next_due",
                             base::format_date(thing.due->day)};
    fact.weight = document::LabelFact::Weight::kLarge;
    label.facts.push_back(std::move(fact));
    label.remarks.push_back(wording_.text("label.due_as_of", {{"day", as_of}}));
    label.remarks.push_back(wording_.text(
        "label.due_says", {{"sentence", thing.due->sentence}, {"source", thing.due->source}}));
  }

  void add_foot(document::Label& label, const LabelThing& thing) const {
    const bool said = label.words == thing.name || label.name == thing.name;
    if (!said) label.foot.push_back(thing.name);
    if (figures_.frame.site_known) label.foot.push_back(figures_.frame.site_name);
    if (!figures_.emergency_phone.empty()) {
      label.foot.push_back(wording_.text("label.phone", {{"phone", figures_.emergency_phone}}));
    }
  }

  /// The first sentence of each; the rest stands in the app and on the reports.
  void add_cautions(document::Label& label, const LabelThing& thing) const {
    const std::string& thing_class = thing.subject.thing_class;
    auto fitting = data_.cautions.for_label(thing_class, content_of(thing));
    if (is_acute(thing)) {
      const auto acute = data_.cautions.for_label(thing_class, "acute");
      fitting.insert(fitting.end(), acute.begin(), acute.end());
    }
    for (const std::string& id : definition_.cautions) {
      const Caution* caution = data_.cautions.find(id);
      if (std::find(fitting.begin(), fitting.end(), caution) == fitting.end()) continue;
      label.if_room.push_back(caution->sentences.front());
    }
  }

  [[nodiscard]] std::string day_text(base::CivilDate day) const {
    return wording_.text("due.day", {{"day", std::to_string(day.day)},
                                     {"month", wording_.month(base::month_of(day))}});
  }

  const LabelFigures& figures_;
  const ReportData& data_;
  const ReportDefinition& definition_;
  const ReportWording& wording_;
  const Texts texts_;
};

}  // namespace

document::Document label_document(const LabelFigures& figures, const ReportData& data) {
  const ReportDefinition& definition = data.definitions.get("label");
  document::Document document =
      framed_document(figures.frame, definition.title, definition.title, data.wording);
  document.report_name = definition.id;
  document.form = document::Form::kLabels;
  document.subject_lines = site_lines(figures.frame, data.wording);
  const LabelWriter writer(figures, data, definition);
  document::Section section;
  for (const LabelThing& thing : figures.things) section.blocks.emplace_back(writer.label(thing));
  document.sections = {std::move(section)};
  return document;
}

}  // namespace benchwarden::reports
