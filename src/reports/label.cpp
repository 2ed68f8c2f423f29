#include "reports/label.h"

#include <algorithm>
#include <utility>

#include "entries/leaf.h"
#include "tallies/facts.h"

namespace benchwarden::reports {
namespace {

/// The day on which the oldest of what stands in a container by now came in.
std::optional<base::CivilDate> accumulation_start(const std::vector<tallies::Level>& levels,
                                                  const std::string& container,
                                                  const base::Zone& zone) {
  const auto level = std::find_if(levels.begin(), levels.end(), [&](const tallies::Level& one) {
    return one.container == container;
  });
  if (level == levels.end() || !level->oldest_content) return std::nullopt;
  return zone.date_of(*level->oldest_content);
}

base::JsonObject authority_json(const findings::Authority& authority) {
  return {{"rule", authority.rule},
          {"pack", authority.pack},
          {"pack_edition", authority.edition},
          {"citation", authority.citation},
          {"confidence", findings::word(authority.confidence)}};
}

base::Json words_json(const std::vector<AskedWords>& asked) {
  base::JsonArray words;
  for (const AskedWords& one : asked) {
    base::JsonObject object{{"words", one.words}};
    for (base::JsonMember& member : authority_json(one.authority)) {
      object.push_back(std::move(member));
    }
    words.emplace_back(std::move(object));
  }
  return words;
}

base::Json due_json(const std::optional<NextDue>& due, base::CivilDate today) {
  if (!due) return nullptr;
  base::JsonObject object{{"day", base::format_date(due->day)},
                          {"past", due->day < today},
                          {"sentence", due->sentence}};
  for (base::JsonMember& member : authority_json(due->authority)) {
    object.push_back(std::move(member));
  }
  return object;
}

base::Json day_json(const std::optional<base::CivilDate>& day) {
  return day ? base::Json(base::format_date(*day)) : base::Json(nullptr);
}

void add_if_room(base::JsonObject& object, const document::Label& label) {
  object.emplace_back("if_room", base::JsonArray(label.if_room.begin(), label.if_room.end()));
  object.emplace_back("left_out", base::JsonArray(label.left_out.begin(), label.left_out.end()));
}

base::JsonObject thing_json(const LabelThing& thing, base::CivilDate today) {
  base::JsonObject object{{"class", thing.subject.thing_class},
                          {"id", thing.subject.id},
                          {"code", thing.subject.thing_class + "/" + thing.subject.id},
                          {"name", thing.name},
                          {"retired", thing.retired},
                          {"retired_on", day_json(thing.retired_on)},
                          {"in_service", thing.in_service},
                          {"attributes", entries::fields_json(thing.attributes)}};
  if (thing.subject.thing_class != "container") {
    object.emplace_back("due", due_json(thing.due, today));
    return object;
  }
  base::JsonArray pictograms;
  for (const std::string& one : sourced_pictograms(thing.stream)) pictograms.emplace_back(one);
  object.emplace_back("words", words_json(thing.words));
  object.emplace_back("stream", entries::fields_json(thing.stream));
  object.emplace_back("pictograms", std::move(pictograms));
  object.emplace_back("accumulation_start", day_json(thing.accumulation_start));
  object.emplace_back("tells_accumulation_start", thing.tells_start);
  object.emplace_back("hazards_by_hand", writes_hazards_by_hand(thing));
  return object;
}

}  // namespace

std::optional<LabelThing> label_thing(const tallies::State& state, const findings::Subject& subject,
                                      const Basis& basis,
                                      const std::vector<tallies::Level>& levels) {
  const tallies::Thing* found = state.thing(subject.thing_class, subject.id);
  if (found == nullptr) return std::nullopt;
  LabelThing thing;
  thing.subject = subject;
  thing.name = tallies::word(found->attributes, "name");
  thing.retired = found->retired;
  const auto retired = state.under_care().retired_since(subject.thing_class, subject.id);
  if (retired) thing.retired_on = basis.zone.date_of(*retired);
  thing.in_service = found->in_service;
  thing.attributes = found->attributes;
  if (subject.thing_class == "container") {
    const tallies::Thing* stream =
        state.thing("stream", tallies::word(found->attributes, "stream"));
    if (stream != nullptr) thing.stream = stream->attributes;
    thing.facts = tallies::stream_of_container(state, subject.id).value_or(tallies::StreamFacts{});
    thing.accumulation_start = accumulation_start(levels, subject.id, basis.zone);
  }
  return thing;
}

LabelFigures label_figures(const tallies::State& state, const Basis& basis, FormTexts forms,
                           std::vector<LabelThing> things) {
  const tallies::Thing* site = state.thing("workshop", "site");
  return {frame_of(state, basis, {}, std::move(forms)),
          site == nullptr ? "" : std::string(tallies::word(site->attributes, "emergency_phone")),
          basis.zone.date_of(basis.as_of), std::move(things)};
}

std::vector<std::string> sourced_pictograms(const entries::Fields& stream) {
  std::vector<std::string> codes;
  const auto* list = entries::find_field_as<entries::List>(stream, "pictograms");
  if (list == nullptr || tallies::word(stream, "pictograms_source").empty()) return codes;
  for (const entries::Record& row : list->rows) {
    const auto* code = entries::find_scalar_as<entries::Code>(row, "pictogram");
    if (code == nullptr) continue;
    if (std::find(codes.begin(), codes.end(), code->slug) == codes.end()) {
      codes.push_back(code->slug);
    }
  }
  return codes;
}

bool writes_hazards_by_hand(const LabelThing& thing) {
  const bool is_waste = tallies::word(thing.attributes, "counts_waste") != "no";
  return thing.subject.thing_class == "container" && is_waste && !thing.retired &&
         thing.facts.hazardous && sourced_pictograms(thing.stream).empty();
}

base::Json label_json(const LabelFigures& figures, const document::Document& document) {
  base::JsonObject report{{"report", "label"}};
  for (base::JsonMember& member : frame_json(figures.frame)) report.push_back(std::move(member));
  report.emplace_back("emergency_phone", figures.emergency_phone);
  report.emplace_back("as_of_day", base::format_date(figures.as_of_day));
  base::JsonArray labels;
  const std::vector<document::Block>& printed = document.sections.front().blocks;
  for (std::size_t i = 0; i < figures.things.size(); ++i) {
    base::JsonObject object = thing_json(figures.things[i], figures.as_of_day);
    add_if_room(object, std::get<document::Label>(printed[i]));
    labels.emplace_back(std::move(object));
  }
  report.emplace_back("labels", std::move(labels));
  return report;
}

}  // namespace benchwarden::reports
