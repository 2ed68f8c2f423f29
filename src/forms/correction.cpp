#include "forms/correction.h"

#include <algorithm>

#include "base/text.h"
#include "forms/attachments.h"
#include "forms/canonical.h"
#include "forms/rules.h"
#include "forms/shown.h"

namespace benchwarden::forms {
namespace {

using entries::RefusalCode;

constexpr std::string_view kAction = "action";
constexpr std::string_view kStruckOut = "struck-out";
constexpr std::string_view kCleared = "cleared";
constexpr std::string_view kClearedField = "cleared_field";

bool is_struck_out(const entries::Fields& fields) {
  const auto* action = entries::find_field_as<entries::Code>(fields, kAction);
  return action != nullptr && action->slug == kStruckOut;
}

/// The members that belong to the correction itself, and those of its target's kind.
struct Split {
  base::JsonObject own;
  base::JsonObject target;
};
Split split(const base::JsonObject& fields, const Definition& correction) {
  Split parts;
  for (const base::JsonMember& member : fields) {
    const bool own = find_field(correction, member.first) != nullptr;
    (own ? parts.own : parts.target).push_back(member);
  }
  return parts;
}

class CorrectionReader {
 public:
  CorrectionReader(const Catalog& catalog, const Envelope& envelope,
                   const Surroundings& surroundings, const ReadContext& context,
                   entries::Refusals& refusals)
      : catalog_(catalog),
        envelope_(envelope),
        surroundings_(surroundings),
        context_(context),
        refusals_(refusals) {}

  ReadForm run() {
    const auto target = find_target();
    const Split parts = split(*envelope_.fields, *envelope_.definition);
    ReadForm own = read_form(*envelope_.definition, parts.own, {}, context_, refusals_);
    if (is_struck_out(own.fields)) {
      strike_out(target, parts.target);
    } else if (target) {
      correct(*target, parts.target, own);
    }
    sort_canonically(own.fields);
    return own;
  }

 private:
  std::optional<Surroundings::Target> find_target() {
    if (!envelope_.corrects) return std::nullopt;
    auto target = surroundings_.target(*envelope_.corrects);
    const std::string shown = base::format_uuid(*envelope_.corrects);
    target_form_ = target ? catalog_.find(target->content.kind) : nullptr;
    if (target_form_ == nullptr || !target_form_->correctable) {
      refusals_.push_back({"/corrects", RefusalCode::kUnknownEntry, shown, ""});
      return std::nullopt;
    }
    if (target->struck) {
      refusals_.push_back({"/corrects", RefusalCode::kAlreadyStruck, shown, ""});
      return std::nullopt;
    }
    check_moment(*target);
    const auto& roles = target_form_->roles_allowed;
    if (std::find(roles.begin(), roles.end(), surroundings_.person_role()) == roles.end()) {
      refusals_.push_back(
          {"/corrects", RefusalCode::kNotAllowed, target_form_->kind, base::join(roles, ", ")});
    }
    return target;
  }

  /// A correction happens when it is made, and nobody corrects what is not recorded yet.
  void check_moment(const Surroundings::Target& target) {
    const base::Instant earliest{target.recorded_at.ms - kClockToleranceMs};
    if (!envelope_.occurred_at || envelope_.occurred_at->instant >= earliest) return;
    refusals_.push_back({"/occurred_at", RefusalCode::kBeforeTarget,
                         base::format_rfc3339(*envelope_.occurred_at),
                         "≥ " + base::format_rfc3339_utc(earliest)});
  }

  void strike_out(const std::optional<Surroundings::Target>& target,
                  const base::JsonObject& others) {
    for (const auto& [name, value] : others) {
      refusals_.push_back({"/fields/" + base::pointer_token(name), RefusalCode::kFieldNotApplicable,
                           shown_value(value), applies_to_corrections()});
    }
    if (!envelope_.attachments.empty()) {
      refusals_.push_back({"/attachments", RefusalCode::kFieldNotApplicable,
                           std::to_string(envelope_.attachments.size()), applies_to_corrections()});
    }
    if (!target) return;
    if (target->relied_on) {
      refusals_.push_back(
          {"/corrects", RefusalCode::kReliedOn, base::format_uuid(*envelope_.corrects), ""});
    }
    check_strike_out(*target_form_, target->content.fields, context_, refusals_);
  }

  void correct(const Surroundings::Target& target, const base::JsonObject& members, ReadForm& own) {
    check_attachments(envelope_.attachments, catalog_, *target_form_, surroundings_, refusals_);
    const std::size_t refused_before = refusals_.size();
    entries::Fields before = target.content.fields;
    sort_canonically(before);
    const Original original{&before, read_cleared(own.fields)};
    context_.occurred_at = target.content.occurred_at.instant;
    context_.named_before = named_before(before);
    ReadForm after = read_form(*target_form_, members, original, context_, refusals_);
    check_rules(*target_form_, after, original, context_, refusals_);
    const bool changes = after.fields != before || !envelope_.attachments.empty();
    if (refusals_.size() == refused_before && own.unreadable.empty() && !changes) {
      refusals_.push_back({"/fields", RefusalCode::kNothingChanged, "", ""});
    }
    for (const entries::Field& field : after.fields) {
      if (after.given.contains(field.name)) own.fields.push_back(field);
    }
    own.as_read = std::move(after.as_read);
  }

  /// "What is done = Corrected"
  [[nodiscard]] std::string applies_to_corrections() const {
    return shown_conditions({{std::string(kAction), {"corrected"}}}, envelope_.definition->fields);
  }

  NameSet read_cleared(const entries::Fields& own) {
    NameSet names;
    const std::vector<std::string> cleared = cleared_fields(own);
    for (std::size_t i = 0; i < cleared.size(); ++i) {
      names.insert(cleared[i]);
      if (find_field(*target_form_, cleared[i]) != nullptr) continue;
      refusals_.push_back({"/fields/cleared/" + std::to_string(i) + "/cleared_field",
                           RefusalCode::kUnknownName, shown_value(base::Json(cleared[i])),
                           shown_names(target_form_->fields)});
    }
    return names;
  }

  const Catalog& catalog_;
  const Envelope& envelope_;
  const Surroundings& surroundings_;
  ReadContext context_;
  entries::Refusals& refusals_;
  const Definition* target_form_ = nullptr;
};

/// The field a reading belongs to: what stands before the first "/".
std::string head(const std::string& path) { return path.substr(0, path.find('/')); }

}  // namespace

ReadForm read_correction(const Catalog& catalog, const Envelope& envelope,
                         const Surroundings& surroundings, const ReadContext& context,
                         entries::Refusals& refusals) {
  return CorrectionReader(catalog, envelope, surroundings, context, refusals).run();
}

std::vector<std::string> cleared_fields(const entries::Fields& correction) {
  std::vector<std::string> names;
  const auto* list = entries::find_field_as<entries::List>(correction, kCleared);
  if (list == nullptr) return names;
  for (const entries::Record& row : list->rows) {
    const auto* name = entries::find_scalar_as<entries::Text>(row, kClearedField);
    if (name != nullptr) names.push_back(name->text);
  }
  return names;
}

bool strikes_out(const entries::Content& correction) {
  return correction.kind == kCorrectionKind && is_struck_out(correction.fields);
}

entries::Content merged(const Catalog& catalog, const entries::Content& original,
                        const entries::Content& correction) {
  const Definition* form = catalog.find(original.kind);
  entries::Content content = original;
  if (form == nullptr || strikes_out(correction)) return content;
  const std::vector<std::string> cleared = cleared_fields(correction.fields);
  content.fields.clear();
  content.as_read = correction.as_read;
  for (const FieldDefinition& field : form->fields) {
    if (const auto* given = entries::find_field(correction.fields, field.name)) {
      content.fields.push_back({field.name, *given});
      continue;
    }
    const auto* kept = entries::find_field(original.fields, field.name);
    const bool is_cleared = std::find(cleared.begin(), cleared.end(), field.name) != cleared.end();
    if (kept == nullptr || is_cleared || !holds(field.when, content.fields)) continue;
    content.fields.push_back({field.name, *kept});
    for (const entries::AsRead& reading : original.as_read) {
      if (head(reading.field) == field.name) content.as_read.push_back(reading);
    }
  }
  sort_canonically(content.fields);
  sort_canonically(content.as_read);
  return content;
}

}  // namespace benchwarden::forms
