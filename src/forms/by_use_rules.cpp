#include "forms/by_use_rules.h"

#include <algorithm>

#include "base/text.h"
#include "forms/thing_class.h"

namespace benchwarden::forms {
namespace {

using entries::RefusalCode;
using Told = Surroundings::Told;

constexpr std::string_view kStage = "work_stage";
constexpr std::string_view kClosed = "closed";

bool is_judged(const FieldDefinition& field) {
  return field.type == entries::FieldType::kId && is_class_by_use(field.thing_class) &&
         field.thing_class != "collection";
}

bool closes(const entries::Fields& fields) {
  const auto* stage = entries::find_field_as<entries::Code>(fields, kStage);
  return stage != nullptr && stage->slug == kClosed;
}

/// Whether an entry of this kind brings an id of the class into being.
bool begins(std::string_view kind, const entries::Fields& fields, std::string_view thing_class) {
  return kind == thing_class && !closes(fields);
}

std::string id_in(const FieldDefinition& field, const entries::Fields& fields) {
  const auto* id = entries::find_field_as<entries::Id>(fields, field.name);
  return id == nullptr ? std::string() : id->slug;
}

/// The kinds of the entries that name the id, in order of the letters, each once.
std::string kinds_of(const std::vector<Told>& told) {
  std::vector<std::string> kinds;
  for (const Told& one : told) kinds.push_back(one.kind);
  std::sort(kinds.begin(), kinds.end());
  kinds.erase(std::unique(kinds.begin(), kinds.end()), kinds.end());
  return base::join(kinds, ", ");
}

/// Of one field: what the entry says of the id it names.
class ByUseCheck {
 public:
  ByUseCheck(const Definition& definition, const FieldDefinition& field, const ReadContext& context,
             entries::Refusals& refusals)
      : kind_(definition.kind), field_(field), context_(context), refusals_(refusals) {}

  void run(const entries::Fields& fields) {
    const std::string id = id_in(field_, fields);
    if (id.empty()) return;
    const std::vector<Told> told = told_of(id);
    if (begins(kind_, fields, field_.thing_class)) {
      if (has_beginning(told, base::Instant{INT64_MAX})) refuse(RefusalCode::kIdUsed, id);
    } else if (!has_beginning(told, context_.occurred_at)) {
      refuse(RefusalCode::kNotBegun, id);
    } else if (closes(fields) && std::any_of(told.begin(), told.end(),
                                             [](const Told& one) { return closes(one.fields); })) {
      refuse(RefusalCode::kClosedBefore, id);
    }
  }

  /// What would lose its beginning when the entry that said `before` no longer says it.
  [[nodiscard]] std::vector<Told> resting(const entries::Fields& before) const {
    if (!begins(kind_, before, field_.thing_class)) return {};
    return told_of(id_in(field_, before));
  }

 private:
  [[nodiscard]] std::vector<Told> told_of(const std::string& id) const {
    return context_.surroundings.told(field_.thing_class, id, context_.corrects);
  }

  [[nodiscard]] bool has_beginning(const std::vector<Told>& told, base::Instant until) const {
    return std::any_of(told.begin(), told.end(), [&](const Told& one) {
      return one.at <= until && begins(one.kind, one.fields, field_.thing_class);
    });
  }

  void refuse(RefusalCode code, const std::string& id) {
    refusals_.push_back({"/fields/" + field_.name, code, id, ""});
  }

  const std::string& kind_;
  const FieldDefinition& field_;
  const ReadContext& context_;
  entries::Refusals& refusals_;
};

}  // namespace

void check_by_use(const Definition& definition, const ReadForm& form, const Original& original,
                  const ReadContext& context, entries::Refusals& refusals) {
  if (form.unreadable.contains(kStage)) return;
  for (const FieldDefinition& field : definition.fields) {
    if (!is_judged(field) || form.unreadable.contains(field.name)) continue;
    ByUseCheck check(definition, field, context, refusals);
    if (original.fields != nullptr) {
      const std::string before = id_in(field, *original.fields);
      const bool stays =
          before == id_in(field, form.fields) && closes(*original.fields) == closes(form.fields);
      if (stays) continue;
      const std::vector<Told> resting = check.resting(*original.fields);
      if (!resting.empty()) {
        refusals.push_back({"/corrects", RefusalCode::kStagesRest, before, kinds_of(resting)});
        continue;
      }
    }
    check.run(form.fields);
  }
}

void check_by_use_strike_out(const Definition& definition, const entries::Fields& struck,
                             const ReadContext& context, entries::Refusals& refusals) {
  for (const FieldDefinition& field : definition.fields) {
    if (!is_judged(field)) continue;
    if (ByUseCheck(definition, field, context, refusals).resting(struck).empty()) continue;
    const std::string shown = context.corrects ? base::format_uuid(*context.corrects) : "";
    refusals.push_back({"/corrects", RefusalCode::kReliedOn, shown, ""});
  }
}

}  // namespace benchwarden::forms
