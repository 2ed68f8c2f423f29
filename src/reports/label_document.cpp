#include "reports/label_document.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/text.h"
#include "reports/texts.h"
#include "tallies/facts.h"

namespace benchwarden::reports {
namespace {

using Lines = std::vector<std::string>;

/// The kind of entry whose cautions go with what stands in a container, by the kind of waste.
struct WasteCautions {
  std::string_view waste_type;
  std::string_view kind;
};
constexpr std::array kWasteCautions{
    WasteCautions{"used-oil", "oil-drained"}, WasteCautions{"spent-solvent", "solvent-waste"},
    WasteCautions{"solvent-wipes", "rag-bin"}, WasteCautions{"oily-solids", "rag-bin"}};

std::string_view caution_kind(const LabelThing& thing) {
  if (thing.subject.thing_class == "cylinder") return "cylinder-check";
  if (thing.subject.thing_class != "container") return "tool-inspection";
  const auto* found =
      std::find_if(kWasteCautions.begin(), kWasteCautions.end(), [&](const WasteCautions& one) {
        return one.waste_type == tallies::word(thing.stream, "waste_type");
      });
  return found == kWasteCautions.end() ? "container-inspection" : found->kind;
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
    return label;
  }

 private:
  [[nodiscard]] document::Label of_container(const LabelThing& thing) const {
    document::Label label;
    const std::string stream(tallies::word(thing.stream, "name"));
    Lines words;
    for (const AskedWords& asked : thing.words) words.push_back(asked.words);
    label.words = words.empty() ? stream : base::join(words, "\n");
    label.name = words.empty() ? thing.name : stream;
    if (label.words.empty()) label.words = std::exchange(label.name, "");
    add_facts(label, thing.stream, "stream");
    const bool counts = tallies::word(thing.attributes, "counts_waste") != "no";
    if (counts) add_accumulation_start(label, thing);
    add_facts(label, thing.attributes, "container");
    if (!counts) add_working_bin(label, thing);
    add_pictograms(label, thing);
    const std::string apart(tallies::word(thing.stream, "keep_apart_from"));
    if (!apart.empty()) {
      label.warnings.push_back(wording_.text("label.keep_apart", {{"what", apart}}));
    }
    if (thing.retired) label.warnings.push_back(wording_.text("label.retired"));
    if (!thing.in_service) label.warnings.push_back(wording_.text("label.withdrawn"));
    for (const AskedWords& asked : thing.words) {
      label.if_room.push_back(
          wording_.text("label.words_from", {{"source", asked.authority.citation}}));
    }
    add_least(label, thing);
    return label;
  }

  [[nodiscard]] document::Label of_tool(const LabelThing& thing) const {
    document::Label label;
    label.words = thing.name.empty() ? thing.subject.id : thing.name;
    if (!thing.in_service || thing.retired) {
      label.name = std::exchange(
          label.words,
          wording_.text(thing.retired ? Key("label.retired") : Key("label.withdrawn")));
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

  void add_accumulation_start(document::Label& label, const LabelThing& thing) const {
    document::LabelFact fact{wording_.text("label.accumulation_start"), "", "accumulation_start"};
    fact.by_hand = wording_.text("label.by_hand");
    if (thing.accumulation_start) {
      fact.value = day_text(*thing.accumulation_start);
      fact.raw = base::format_date(*thing.accumulation_start);
    }
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
    document::LabelFact fact{wording_.text("label.next_due"), day_text(thing.due->day), "next_due",
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
    for (const std::string& id : definition_.cautions) {
      const Caution* caution = data_.cautions.find(id);
      const Lines& kinds = caution->kinds;
      if (std::find(kinds.begin(), kinds.end(), caution_kind(thing)) == kinds.end()) continue;
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
