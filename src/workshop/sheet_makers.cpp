#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

#include "base/text.h"
#include "reports/briefing_sheet.h"
#include "reports/inspection_sheet.h"
#include "reports/walk_round_sheet.h"
#include "rules/courses.h"
#include "tallies/facts.h"
#include "workshop/form_questions.h"
#include "workshop/judgement.h"
#include "workshop/report_input.h"
#include "workshop/report_makers.h"

namespace benchwarden::workshop {
namespace {

constexpr std::size_t kInspectionsShown = 3;

reports::FormAsked asked_by(const Ports& ports, std::string_view kind, const Given& given) {
  const forms::Definition* form = ports.definitions.catalog.find(kind);
  assert(form != nullptr);
  return questions_of(*form, given, ports.definitions.reports.wording);
}

/// Fields that a section leaves out of what is asked of things of that type.
std::vector<std::string> left_out_of(const Ports& ports, std::string_view report,
                                     std::string_view section_id, std::string_view type) {
  std::vector<std::string> fields;
  const std::string start = std::string(type) + "/";
  for (const auto& section : ports.definitions.reports.definitions.get(report).sections) {
    if (section.id != section_id) continue;
    for (const std::string& one : section.left_out) {
      if (one.starts_with(start)) fields.push_back(one.substr(start.size()));
    }
  }
  return fields;
}

/// A tool by its type, a gauge as one.
std::string_view inspected_type(const tallies::State& state, const findings::Subject& thing) {
  if (thing.thing_class != "tool") return thing.thing_class;
  const tallies::Thing* known = state.thing(thing.thing_class, thing.id);
  return known == nullptr ? "" : tallies::word(known->attributes, "tool_type");
}

/// What the gauge was compared at the last time it was compared at all.
std::vector<reports::PointAsked> points_asked(const findings::GaugeCourse& course) {
  std::vector<reports::PointAsked> points;
  for (const findings::GaugeMoment& moment : course.moments) {
    if (moment.points.empty()) continue;
    points.clear();
    for (const findings::GaugeError& point : moment.points) {
      points.push_back({point.reference, point.limit});
    }
  }
  return reports::up_and_down(std::move(points));
}

/// The classes that are looked at on a walk round, and the form that is asked of each.
struct WalkedClass {
  std::string_view thing_class;
  std::string_view kind;   ///< "": looked at with the room
  std::string_view field;  ///< of the form, that names the thing
};
constexpr std::array<WalkedClass, 3> kWalked{
    WalkedClass{"container", "container-inspection", "container"},
    WalkedClass{"plant", "plant-check", "plant"}, WalkedClass{"cabinet", "", ""}};

std::vector<reports::RoomAsked> rooms_asked(const Ports& ports, const tallies::State& state) {
  std::vector<reports::RoomAsked> rooms;
  for (const auto& [id, room] : state.things("room")) {
    if (room.retired) continue;
    rooms.push_back({id, std::string(tallies::word(room.attributes, "name")), {}});
  }
  rooms.push_back({});  // for what stands in none of them
  for (const WalkedClass& walked : kWalked) {
    for (const auto& [id, thing] : state.things(walked.thing_class)) {
      if (thing.retired) continue;
      const std::string_view room = tallies::word(thing.attributes, "room");
      const auto place =
          std::find_if(rooms.begin(), rooms.end() - 1,
                       [&](const reports::RoomAsked& one) { return one.id == room; });
      place->things.push_back({std::string(walked.thing_class), id,
                               std::string(tallies::word(thing.attributes, "name")),
                               std::string(tallies::word(thing.attributes, "location")),
                               std::string(walked.kind),
                               left_out_of(ports, "walk-round-sheet", "things",
                                           tallies::word(thing.attributes, "plant_type"))});
    }
  }
  return rooms;
}

bool is_about_briefings(const rules::Rule& rule) {
  return (" " + std::string(rule.setting("kind")) + " ").find(" briefing ") != std::string::npos;
}

std::vector<findings::Authority> briefing_rules(const rules::RuleBook& book) {
  std::vector<findings::Authority> rules;
  for (const rules::Rule& rule : book.rules()) {
    if (is_about_briefings(rule)) rules.push_back(rule.authority);
  }
  return rules;
}

/// The last one about the topic; none where nothing stands.
std::optional<reports::BriefedFigures> last_briefing(const Ports& ports, const base::Zone& zone,
                                                     const std::string& person,
                                                     const tallies::RecordList& records,
                                                     std::string_view topic) {
  std::optional<reports::BriefedFigures> last;
  for (const tallies::Record& record : records) {
    if (record.kind != "briefing" || record.struck) continue;
    const entries::Fields fields = record.fields();
    const auto* until = entries::find_field_as<base::CivilDate>(fields, "valid_until");
    if (until == nullptr || tallies::word(fields, "topic") != topic) continue;
    last = {person, ports.names.display_name(person), record.seq, zone.local(record.at), *until};
  }
  return last;
}

std::vector<reports::BriefedFigures> briefed_about(const Ports& ports, const ReportInput& input,
                                                   std::string_view topic) {
  std::vector<reports::BriefedFigures> briefed;
  for (const auto& [person, records] : input.state.records().of_class("person")) {
    const tallies::Thing* known = input.state.thing("person", person);
    if (known != nullptr && known->retired) continue;
    auto last = last_briefing(ports, input.basis.zone, person, records, topic);
    if (last) briefed.push_back(*std::move(last));
  }
  std::stable_sort(briefed.begin(), briefed.end(),
                   [](const auto& a, const auto& b) { return a.name < b.name; });
  return briefed;
}

base::Error no_such_caution(const Ports& ports, const std::string& wanted) {
  std::vector<std::string> ids;
  for (const reports::Caution& caution : ports.definitions.reports.cautions.all()) {
    ids.push_back(caution.id);
  }
  return {base::ErrorCode::kNotFound,
          "there is no caution '" + wanted + "'; there are " + base::join(ids, ", ")};
}

}  // namespace

base::Result<MadeReport> make_inspection_sheet(const Ports& ports, const ReportRequest& request) {
  const findings::Subject& thing = *request.subject;
  auto input = history_input(ports, thing, "tool-inspection");
  if (!input) return input.error();
  reports::HistoryFigures history =
      reports::make_history({input->state, thing.thing_class, thing.id, input->basis,
                             input->entries, input->changes, input->names, input->forms});
  if (!history.known) {
    return base::Error{base::ErrorCode::kNotFound,
                       "there is no " + thing.thing_class + " '" + thing.id + "' in the register"};
  }
  reports::keep_last_checks(history, kInspectionsShown);
  const reports::InspectionSheetFigures figures{
      std::move(history),
      reports::without(
          asked_by(ports, "tool-inspection",
                   {{"inspected_class", thing.thing_class}, {thing.thing_class, thing.id}}),
          left_out_of(ports, "inspection-sheet", "questions", inspected_type(input->state, thing))),
      points_asked(
          rules::gauge_course({input->state, input->basis.as_of, input->basis.zone}, thing))};
  return MadeReport{reports::inspection_sheet_document(figures, ports.definitions.reports),
                    reports::inspection_sheet_json(figures), input->basis};
}

base::Result<MadeReport> make_walk_round_sheet(const Ports& ports,
                                               const ReportRequest& /*request*/) {
  auto input = kinds_input(ports, {});
  if (!input) return input.error();
  reports::WalkRoundFigures figures{
      reports::frame_of(input->state, input->basis, input->names, input->forms),
      asked_by(ports, "walk-round", {}),
      {},
      rooms_asked(ports, input->state)};
  for (const WalkedClass& walked : kWalked) {
    if (walked.kind.empty()) continue;
    figures.forms.push_back(asked_by(ports, walked.kind, {{std::string(walked.field), ""}}));
  }
  return MadeReport{reports::walk_round_document(figures, ports.definitions.reports),
                    reports::walk_round_json(figures), input->basis};
}

base::Result<MadeReport> make_briefing_sheet(const Ports& ports, const ReportRequest& request) {
  const std::string& caution = request.subject->id;
  if (ports.definitions.reports.cautions.find(caution) == nullptr) {
    return no_such_caution(ports, caution);
  }
  auto input = kinds_input(ports, {});
  if (!input) return input.error();
  const auto book = rules_in_force(ports, input->state);
  if (!book) return book.error();
  const reports::BriefingSheetFigures figures{
      reports::frame_of(input->state, input->basis, input->names, input->forms), caution,
      briefing_rules(**book), briefed_about(ports, *input, caution)};
  return MadeReport{reports::briefing_sheet_document(figures, ports.definitions.reports),
                    reports::briefing_sheet_json(figures, ports.definitions.reports), input->basis};
}

}  // namespace benchwarden::workshop
