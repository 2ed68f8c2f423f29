#include "workshop/register_import.h"

#include <algorithm>
#include <map>
#include <utility>

#include "forms/submission.h"
#include "workshop/register_file.h"
#include "workshop/rule_adoption.h"
#include "workshop/surroundings.h"

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kRegisterChange = "register-change";

/// How strictly a thing of a file is judged.
enum class Judged {
  kFully,
  /// As if every unusual value were confirmed and nothing it names out of use: both may have come
  /// to be since the register took the value, and what it says already is not judged again.
  kToCompare,
};

/// The workshop as it will be once the entries taken so far are in the book.
class WithEntered final : public BookSurroundings {
 public:
  using BookSurroundings::BookSurroundings;

  [[nodiscard]] std::optional<forms::Thing> thing(std::string_view thing_class,
                                                  std::string_view id) const override {
    const auto found = entered_.find(std::pair(std::string(thing_class), std::string(id)));
    auto thing = found == entered_.end() ? BookSurroundings::thing(thing_class, id) : found->second;
    if (thing && judged_ == Judged::kToCompare &&
        std::pair<std::string, std::string>(thing_class, id) != subject_) {
      thing->retired = false;
      thing->in_service = true;
    }
    return thing;
  }

  void judge(const FiledThing& filed, Judged judged) {
    subject_ = {filed.thing_class, filed.id};
    judged_ = judged;
  }

  /// What the thing will be like, for those that name it. A file names a thing once.
  void enter(const FiledThing& filed, const entries::Fields& attributes) {
    forms::Thing thing = this->thing(filed.thing_class, filed.id).value_or(forms::Thing{});
    for (const entries::Field& field : attributes) {
      std::erase_if(thing.attributes,
                    [&](const entries::Field& known) { return known.name == field.name; });
      thing.attributes.push_back(field);
    }
    entered_.insert_or_assign(std::pair(filed.thing_class, filed.id), std::move(thing));
  }

 private:
  std::map<std::pair<std::string, std::string>, forms::Thing> entered_;
  std::pair<std::string, std::string> subject_;
  Judged judged_ = Judged::kFully;
};

/// Finds out, thing by thing, what is to be recorded.
class Planner {
 public:
  Planner(const Ports& ports, const Actor& actor)
      : ports_(ports),
        actor_(actor),
        form_(*ports.definitions.catalog.find(kRegisterChange)),
        world_(ports, actor) {}

  void take(FiledThing thing) {
    const auto [earlier, first] =
        lines_.emplace(std::pair(thing.thing_class, thing.id), thing.table.line);
    if (!first) {
      faults_.push_back(
          {thing.table.line, name_of(thing), "", "named_twice",
           "is described twice; the other time in line " + std::to_string(earlier->second)});
      return;
    }
    const auto known = world_.thing(thing.thing_class, thing.id);
    if (known) leave_out_known(thing, known->attributes);
    auto accepted = validate(thing, known ? "changed" : "added", Judged::kFully);
    if (accepted) {
      plan(thing, known ? ImportedThing::Act::kChanged : ImportedThing::Act::kAdded,
           *std::move(accepted));
    } else if (known && says_nothing_new(accepted.error())) {
      things_.push_back({thing.thing_class, thing.id, ImportedThing::Act::kUnchanged, {}});
    } else {
      refuse(thing, accepted.error());
    }
  }

  void refuse(const base::FileFault& fault) {
    faults_.push_back({fault.line, "", "", "bad_file", fault.reason});
  }

  [[nodiscard]] ImportFaults& faults() { return faults_; }
  [[nodiscard]] std::vector<ImportedThing>& things() { return things_; }
  [[nodiscard]] const std::vector<book::Draft>& drafts() const { return drafts_; }

 private:
  static std::string name_of(const FiledThing& thing) { return thing.thing_class + "/" + thing.id; }

  base::Result<forms::Accepted, entries::Refusals> validate(const FiledThing& thing,
                                                            std::string_view act, Judged judged) {
    base::JsonArray confirmed = thing.confirmed;
    if (judged == Judged::kToCompare) {
      for (const auto& [name, value] : thing.attributes) confirmed.emplace_back(name);
    }
    world_.judge(thing, judged);
    const base::Json submission =
        base::JsonObject{{"id", base::format_uuid(base::new_uuid7(world_.now()))},
                         {"kind", kRegisterChange},
                         {"occurred_at", base::format_rfc3339_utc(world_.now())},
                         {"confirmed", std::move(confirmed)},
                         {"fields", register_fields(thing, act)}};
    return forms::validate(ports_.definitions.catalog, submission, world_);
  }

  /// What the register says already is not said again. All of it stays where at least one attribute
  /// has a fault.
  void leave_out_known(FiledThing& thing, const entries::Fields& known) {
    const auto said = validate(thing, "changed", Judged::kToCompare);
    if (!said && says_nothing_new(said.error())) thing.attributes.clear();
    if (!said) return;
    std::erase_if(thing.attributes, [&](const base::JsonMember& attribute) {
      const entries::FieldValue* now = entries::find_field(known, attribute.first);
      const entries::FieldValue* then = entries::find_field(said->content.fields, attribute.first);
      return now != nullptr && then != nullptr && *now == *then;
    });
  }

  static bool says_nothing_new(const entries::Refusals& refusals) {
    return refusals.size() == 1 && refusals.front().code == entries::RefusalCode::kNothingChanged;
  }

  void plan(const FiledThing& thing, ImportedThing::Act act, forms::Accepted accepted) {
    ImportedThing imported{thing.thing_class, thing.id, act, {}};
    for (const auto& [name, value] : thing.attributes) imported.fields.push_back(name);
    things_.push_back(std::move(imported));
    for (const entries::Effect& effect :
         forms::effects_of(ports_.definitions.catalog, accepted.content)) {
      if (const auto* changes = std::get_if<entries::Changes>(&effect)) {
        world_.enter(thing, changes->attributes);
      }
    }
    book::Draft draft;
    draft.subjects = forms::subjects_of(ports_.definitions.catalog, accepted.content);
    draft.content = std::move(accepted.content);
    draft.signature = {actor_.person, actor_.verified, actor_.device, std::nullopt};
    drafts_.push_back(std::move(draft));
  }

  void refuse(const FiledThing& thing, const entries::Refusals& refusals) {
    constexpr std::string_view kFields = "/fields/";
    for (const entries::Refusal& refusal : refusals) {
      const std::string_view pointer = refusal.pointer;
      const bool in_field = pointer.starts_with(kFields);
      faults_.push_back({line_of(thing, pointer), name_of(thing),
                         in_field ? std::string(pointer.substr(kFields.size())) : "",
                         std::string(entries::refusal_key(refusal.code)),
                         ports_.definitions.wording.sentence(refusal, {&form_})});
    }
    // What names it is judged as if it were there: its own fault is told once.
    world_.enter(thing, {});
  }

  const Ports& ports_;
  const Actor& actor_;
  const forms::Definition& form_;
  WithEntered world_;
  std::map<std::pair<std::string, std::string>, int> lines_;
  ImportFaults faults_;
  std::vector<ImportedThing> things_;
  std::vector<book::Draft> drafts_;
};

}  // namespace

std::string_view act_name(ImportedThing::Act act) {
  switch (act) {
    case ImportedThing::Act::kAdded:
      return "added";
    case ImportedThing::Act::kChanged:
      return "changed";
    case ImportedThing::Act::kUnchanged:
      break;
  }
  return "unchanged";
}

std::string format_import_fault(const std::string& file, const ImportFault& fault) {
  std::string text = file;
  if (fault.line > 0) text += ":" + std::to_string(fault.line);
  if (!fault.thing.empty()) text += ": " + fault.thing;
  return text + ": " + fault.sentence;
}

ImportOutcome import_register(const Ports& ports, const Actor& actor, std::string_view toml,
                              ImportMode mode) {
  const forms::Catalog& catalog = ports.definitions.catalog;
  const auto& roles = catalog.find(kRegisterChange)->roles_allowed;
  if (std::find(roles.begin(), roles.end(), actor.role) == roles.end()) {
    return base::Error{base::ErrorCode::kForbidden,
                       "the register is changed by managers only; " + actor.person + " is none"};
  }
  RegisterFile file = read_register_file(toml, catalog);
  const auto turn = ports.admission.alone();
  Planner planner(ports, actor);
  for (const base::FileFault& fault : file.faults) planner.refuse(fault);
  for (FiledThing& thing : in_order_of_need(std::move(file.things), catalog)) {
    planner.take(std::move(thing));
  }
  if (!planner.faults().empty()) {
    std::stable_sort(planner.faults().begin(), planner.faults().end(),
                     [](const ImportFault& a, const ImportFault& b) { return a.line < b.line; });
    return std::move(planner.faults());
  }
  if (mode == ImportMode::kRecord && !planner.drafts().empty()) {
    const auto recorded = ports.book.append_all(planner.drafts());
    if (!recorded) return recorded.error();
    follow_register(ports);
  }
  return std::move(planner.things());
}

}  // namespace benchwarden::workshop
