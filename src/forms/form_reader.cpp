#include "forms/form_reader.h"

#include <algorithm>

#include "base/text.h"
#include "forms/canonical.h"
#include "forms/shown.h"

namespace benchwarden::forms {
namespace {

using base::Json;
using entries::RefusalCode;

enum class Holds { kYes, kNo, kUnknown };

const Json* find_member(const base::JsonObject& members, std::string_view name) {
  const auto found = std::find_if(members.begin(), members.end(),
                                  [&](const auto& member) { return member.first == name; });
  return found == members.end() ? nullptr : &found->second;
}

class FormReader {
 public:
  FormReader(const Definition& definition, const base::JsonObject& members,
             const Original& original, const ReadContext& context, entries::Refusals& refusals)
      : definition_(definition),
        members_(members),
        original_(original),
        refusals_(refusals),
        values_(context, refusals) {}

  ReadForm run() {
    for (const FieldDefinition& field : definition_.fields) read_field(field);
    refuse_unknown();
    for (const AtLeastOne& group : definition_.at_least_one) check_group(group);
    read_.as_read = values_.as_read();
    sort_canonically(read_.fields);
    sort_canonically(read_.as_read);
    return std::move(read_);
  }

 private:
  void read_field(const FieldDefinition& field) {
    const Holds applies = judge(field.when);
    if (const Json* json = find_member(members_, field.name)) {
      read_given(field, *json, applies);
    } else {
      keep_original(field, applies);
    }
    const bool has_value = entries::find_field(read_.fields, field.name) != nullptr;
    if (has_value || read_.unreadable.contains(field.name) || applies != Holds::kYes) return;
    const bool demanded = field.required || (!field.required_when.empty() &&
                                             judge(field.required_when) == Holds::kYes);
    if (!demanded) return;
    refuse(field.name, RefusalCode::kMissing, "", shown_accepted(field));
    read_.unreadable.insert(field.name);
  }

  void read_given(const FieldDefinition& field, const Json& json, Holds applies) {
    if (field.retired || applies == Holds::kNo) {
      const RefusalCode code =
          field.retired ? RefusalCode::kRetiredField : RefusalCode::kFieldNotApplicable;
      refuse(field.name, code, shown_value(json), shown_conditions(field.when, definition_.fields));
      read_.unreadable.insert(field.name);
      return;
    }
    if (auto value = values_.read(field, json)) {
      read_.fields.push_back({field.name, std::move(*value)});
      read_.given.insert(field.name);
    } else {
      read_.unreadable.insert(field.name);
    }
  }

  /// A value of the original stays unless it was cleared or applies no longer.
  void keep_original(const FieldDefinition& field, Holds applies) {
    if (original_.fields == nullptr || applies == Holds::kNo) return;
    if (original_.cleared.contains(field.name)) return;
    const entries::FieldValue* value = entries::find_field(*original_.fields, field.name);
    if (value != nullptr) read_.fields.push_back({field.name, *value});
  }

  [[nodiscard]] Holds judge(const Conditions& conditions) const {
    Holds all = Holds::kYes;
    for (const Condition& condition : conditions) {
      if (read_.unreadable.contains(condition.field)) {
        all = Holds::kUnknown;
      } else if (!holds({condition}, read_.fields)) {
        return Holds::kNo;
      }
    }
    return all;
  }

  void refuse_unknown() {
    for (const auto& [name, json] : members_) {
      if (find_field(definition_, name) != nullptr) continue;
      refuse(base::pointer_token(name), RefusalCode::kUnknownField, shown_value(json),
             shown_names(definition_.fields));
    }
  }

  void check_group(const AtLeastOne& group) {
    if (judge(group.when) != Holds::kYes) return;
    const bool found =
        std::any_of(group.fields.begin(), group.fields.end(), [&](const std::string& name) {
          return entries::find_field(read_.fields, name) != nullptr ||
                 read_.unreadable.contains(name);
        });
    if (found) return;
    refuse(group.fields.front(), RefusalCode::kOneNeeded, "",
           shown_labels(group.fields, definition_.fields));
  }

  void refuse(const std::string& path, RefusalCode code, std::string value, std::string accepted) {
    refusals_.push_back({"/fields/" + path, code, std::move(value), std::move(accepted)});
  }

  const Definition& definition_;
  const base::JsonObject& members_;
  const Original& original_;
  entries::Refusals& refusals_;
  ValueReader values_;
  ReadForm read_;
};

}  // namespace

ReadForm read_form(const Definition& definition, const base::JsonObject& members,
                   const Original& original, const ReadContext& context,
                   entries::Refusals& refusals) {
  return FormReader(definition, members, original, context, refusals).run();
}

}  // namespace benchwarden::forms
