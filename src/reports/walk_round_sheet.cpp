#include "reports/walk_round_sheet.h"

#include <algorithm>
#include <cassert>

#include "base/text.h"
#include "reports/texts.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kWalkRound = "walk-round-sheet";

struct WalkParts {
  const WalkRoundFigures& figures;
  const ReportData& data;
  Texts texts;
};

std::string thing_name(const WalkParts& parts, const ThingAsked& thing) {
  const std::string name = parts.texts.thing(thing.id, thing.name);
  if (thing.location.empty()) return name;
  return parts.data.wording.text("sheet.thing_at", {{"thing", name}, {"where", thing.location}});
}

const FormAsked* form_of(const WalkParts& parts, const ThingAsked& thing) {
  const auto& forms = parts.figures.forms;
  const auto found = std::find_if(forms.begin(), forms.end(),
                                  [&](const FormAsked& form) { return form.kind == thing.kind; });
  return found == forms.end() ? nullptr : &*found;
}

std::string room_name(const WalkParts& parts, const RoomAsked& room) {
  if (room.id.empty()) return parts.data.wording.text("sheet.no_room");
  return parts.texts.thing(room.id, room.name);
}

/// What stands there without a form of its own: cabinets.
std::string looked_at(const WalkParts& parts, const RoomAsked& room) {
  std::vector<std::string> names;
  for (const ThingAsked& thing : room.things) {
    if (form_of(parts, thing) == nullptr) names.push_back(thing_name(parts, thing));
  }
  return base::join(names, parts.data.wording.text("word.row_mark"));
}

Blocks walk_blocks(const WalkParts& parts) {
  const ReportWording& wording = parts.data.wording;
  std::vector<std::string> lines;
  for (const RoomAsked& room : parts.figures.rooms) {
    const std::string also = looked_at(parts, room);
    const std::string name = room_name(parts, room);
    if (room.id.empty() && also.empty()) continue;
    lines.push_back(also.empty()
                        ? name
                        : wording.text("word.label_and_value", {{"label", name}, {"value", also}}));
  }
  Blocks blocks;
  if (!lines.empty()) {
    blocks.emplace_back(document::Paragraph{wording.text(
        "sheet.rooms", {{"rooms", base::join(lines, wording.text("word.row_mark"))}})});
  }
  blocks.emplace_back(checklist_of(parts.figures.walk, wording));
  return blocks;
}

bool is_asked(const WalkParts& parts, const FormAsked& form) {
  return std::any_of(
      parts.figures.rooms.begin(), parts.figures.rooms.end(), [&](const RoomAsked& room) {
        return std::any_of(room.things.begin(), room.things.end(),
                           [&](const ThingAsked& thing) { return thing.kind == form.kind; });
      });
}

Blocks checklists_in(const WalkParts& parts, const RoomAsked& room) {
  Blocks blocks;
  for (const ThingAsked& thing : room.things) {
    const FormAsked* form = form_of(parts, thing);
    if (form == nullptr) continue;
    document::Checklist list = short_checklist_of(without(*form, thing.left_out),
                                                  thing_name(parts, thing), parts.data.wording);
    list.about = thing.thing_class + "/" + thing.id;
    blocks.emplace_back(std::move(list));
  }
  return blocks;
}

Blocks place_blocks(const WalkParts& parts) {
  Blocks blocks;
  for (const FormAsked& form : parts.figures.forms) {
    if (is_asked(parts, form)) blocks.emplace_back(meant_by(form, parts.data.wording));
  }
  for (const RoomAsked& room : parts.figures.rooms) {
    Blocks asked = checklists_in(parts, room);
    if (asked.empty()) continue;
    blocks.emplace_back(document::Heading{2, room_name(parts, room)});
    std::move(asked.begin(), asked.end(), std::back_inserter(blocks));
  }
  if (blocks.empty()) {
    blocks.emplace_back(document::Paragraph{parts.data.wording.text("sheet.no_things")});
  }
  return blocks;
}

Blocks walk_blocks_of(const WalkParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.data.wording;
  if (section.id == "filled") return filled_blocks(wording);
  if (section.id == "walk") return walk_blocks(parts);
  if (section.id == "things") return place_blocks(parts);
  if (section.id == "entered") return entered_blocks(wording);
  if (section.id == "cautions") {
    return caution_blocks(parts.data.definitions.get(kWalkRound), parts.data);
  }
  assert(section.id == "methods");
  return method_blocks_of(parts.figures.frame, wording, {});
}

base::Json room_json(const RoomAsked& room) {
  base::JsonArray things;
  for (const ThingAsked& thing : room.things) {
    things.emplace_back(base::JsonObject{
        {"class", thing.thing_class},
        {"id", thing.id},
        {"name", thing.name},
        {"location", thing.location},
        {"form", thing.kind},
        {"not_asked", base::JsonArray(thing.left_out.begin(), thing.left_out.end())}});
  }
  return base::JsonObject{{"room", room.id}, {"name", room.name}, {"things", std::move(things)}};
}

}  // namespace

base::Json walk_round_json(const WalkRoundFigures& figures) {
  base::JsonObject json{{"report", kWalkRound}};
  for (base::JsonMember& member : frame_json(figures.frame)) json.push_back(std::move(member));
  base::JsonArray forms{form_asked_json(figures.walk)};
  for (const FormAsked& form : figures.forms) forms.push_back(form_asked_json(form));
  base::JsonArray rooms;
  for (const RoomAsked& room : figures.rooms) rooms.push_back(room_json(room));
  json.emplace_back("forms", std::move(forms));
  json.emplace_back("rooms", std::move(rooms));
  return json;
}

document::Document walk_round_document(const WalkRoundFigures& figures, const ReportData& data) {
  const ReportDefinition& definition = data.definitions.get(kWalkRound);
  const WalkParts parts{figures, data, Texts(figures.frame, data.wording)};
  document::Document document = framed_document(figures.frame, definition.title,
                                                data.wording.text("page.blank"), data.wording);
  document.report_name = kWalkRound;
  document.subject_lines = sheet_subject_lines(figures.frame, data.wording);
  for (const SectionDefinition& section : definition.sections) {
    document.sections.push_back(
        titled_section(data.wording, definition.id, section.id, walk_blocks_of(parts, section)));
  }
  return document;
}

}  // namespace benchwarden::reports
