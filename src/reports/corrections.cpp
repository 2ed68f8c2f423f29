#include "reports/corrections.h"

#include <algorithm>

#include "entries/leaf.h"

namespace benchwarden::reports {
namespace {

// The fields of a correction that are its own; all others are those of the entry it corrects.
constexpr std::string_view kAction = "action";
constexpr std::string_view kCleared = "cleared";
constexpr std::string_view kClearedField = "cleared_field";
constexpr std::string_view kStruckOut = "struck-out";

std::optional<entries::FieldValue> value_of(const entries::Fields& fields, std::string_view name) {
  const entries::FieldValue* value = entries::find_field(fields, name);
  return value == nullptr ? std::nullopt : std::optional(*value);
}

void set_field(entries::Fields& fields, const std::string& name,
               const std::optional<entries::FieldValue>& value) {
  std::erase_if(fields, [&](const entries::Field& field) { return field.name == name; });
  if (!value) return;
  const auto place = std::find_if(fields.begin(), fields.end(),
                                  [&](const entries::Field& field) { return field.name > name; });
  fields.insert(place, entries::Field{name, *value});
}

/// What the correction says about the fields of its target, whether it differs or not.
std::vector<FieldChange> said_by(const entries::Fields& correction) {
  std::vector<FieldChange> said;
  for (const entries::Field& field : correction) {
    if (field.name == kAction || field.name == kCleared) continue;
    said.push_back({field.name, std::nullopt, field.value});
  }
  if (const auto* cleared = entries::find_field_as<entries::List>(correction, kCleared)) {
    for (const entries::Record& row : cleared->rows) {
      const auto* name = entries::find_scalar_as<entries::Text>(row, kClearedField);
      if (name != nullptr) said.push_back({name->text, std::nullopt, std::nullopt});
    }
  }
  return said;
}

std::vector<FieldChange> apply(const entries::Fields& correction, entries::Fields& current) {
  std::vector<FieldChange> changes;
  for (FieldChange& change : said_by(correction)) {
    change.before = value_of(current, change.field);
    set_field(current, change.field, change.after);
    if (change.before != change.after) changes.push_back(std::move(change));
  }
  return changes;
}

Person person_of(const entries::Entry& entry, const tallies::Claims& claims) {
  Person person{entry.signature.person, entry.signature.person_verified};
  if (const tallies::Answer* answer = claims.answer_for(entry.seq)) person.answer = *answer;
  return person;
}

base::Json authorship_json(const std::optional<tallies::Answer>& answer) {
  if (!answer) return nullptr;
  return answer->authorship == entries::Authorship::kMine ? "mine" : "not-mine";
}

}  // namespace

EntryFigures entry_figures(const entries::Entry& entry, const base::Zone& zone,
                           const tallies::Claims& claims) {
  return {entry.seq, entry.content.kind, zone.local(entry.content.occurred_at.instant),
          zone.local(entry.recorded_at), person_of(entry, claims)};
}

base::JsonObject entry_figures_json(const EntryFigures& entry) {
  return {{"entry", entry.seq},
          {"kind", entry.kind},
          {"occurred_at", base::format_rfc3339(entry.occurred_at)},
          {"recorded_at", base::format_rfc3339(entry.recorded_at)},
          {"person", entry.person.id},
          {"person_verified", entry.person.verified},
          {"confirmed_by",
           entry.person.answer ? base::Json(entry.person.answer->by) : base::Json(nullptr)},
          {"authorship", authorship_json(entry.person.answer)}};
}

std::vector<CorrectionFigures> corrections_of(const RecordedEntry& recorded, const base::Zone& zone,
                                              const tallies::Claims& claims) {
  std::vector<CorrectionFigures> corrections;
  entries::Fields current = recorded.entry.content.fields;
  for (const entries::Entry& correction : recorded.corrections) {
    CorrectionFigures figures;
    figures.target = entry_figures(recorded.entry, zone, claims);
    figures.by = entry_figures(correction, zone, claims);
    figures.reason = correction.content.reason.value_or("");
    const auto* action = entries::find_field_as<entries::Code>(correction.content.fields, kAction);
    figures.struck = action != nullptr && action->slug == kStruckOut;
    if (!figures.struck) figures.changes = apply(correction.content.fields, current);
    corrections.push_back(std::move(figures));
  }
  return corrections;
}

base::Json value_json(const std::string& field, const std::optional<entries::FieldValue>& value) {
  if (!value) return nullptr;
  const base::Json json = entries::fields_json({entries::Field{field, *value}});
  return *json.find(field);
}

base::Json correction_json(const CorrectionFigures& correction) {
  base::JsonArray changes;
  for (const FieldChange& change : correction.changes) {
    changes.push_back(base::JsonObject{{"field", change.field},
                                       {"before", value_json(change.field, change.before)},
                                       {"after", value_json(change.field, change.after)}});
  }
  return base::JsonObject{{"corrects", entry_figures_json(correction.target)},
                          {"by", entry_figures_json(correction.by)},
                          {"reason", correction.reason},
                          {"struck_out", correction.struck},
                          {"changes", changes}};
}

}  // namespace benchwarden::reports
