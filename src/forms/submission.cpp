#include "forms/submission.h"

#include <algorithm>
#include <cstdint>

#include "forms/canonical.h"
#include "forms/correction.h"
#include "forms/rules.h"
#include "forms/shown.h"

namespace benchwarden::forms {
namespace {

using entries::RefusalCode;

/// The form of the entry a correction names, for the names it may confirm.
const Definition* target_form(const Catalog& catalog, const Envelope& envelope,
                              const Surroundings& surroundings) {
  if (!envelope.corrects) return nullptr;
  const auto target = surroundings.target(*envelope.corrects);
  return target ? catalog.find(target->content.kind) : nullptr;
}

NameSet read_confirmed(const Envelope& envelope, const Definition* target,
                       entries::Refusals& refusals) {
  NameSet names;
  for (std::size_t i = 0; i < envelope.confirmed.size(); ++i) {
    const std::string& path = envelope.confirmed[i];
    const std::string field = path.substr(0, path.find('/'));
    const bool known = find_field(*envelope.definition, field) != nullptr ||
                       (target != nullptr && find_field(*target, field) != nullptr);
    if (known) {
      names.insert(path);
    } else {
      refusals.push_back({"/confirmed/" + std::to_string(i), RefusalCode::kUnknownName,
                          shown_value(base::Json(path)),
                          shown_names((target == nullptr ? envelope.definition : target)->fields)});
    }
  }
  return names;
}

/// The moment for which the things an entry names are judged: when it happened. The register acts
/// in the order of the book, so what it names must be in use however it is dated.
base::Instant judged_at(const Envelope& envelope, const Surroundings& surroundings) {
  const std::vector<EffectDefinition>& effects = envelope.definition->effects;
  const bool changes_register =
      std::any_of(effects.begin(), effects.end(),
                  [](const EffectDefinition& effect) { return effect.effect == "changes"; });
  if (changes_register) return {INT64_MAX};
  return envelope.occurred_at ? envelope.occurred_at->instant : surroundings.now();
}

ReadForm read_fields(const Catalog& catalog, const Envelope& envelope,
                     const Surroundings& surroundings, entries::Refusals& refusals) {
  const Definition& definition = *envelope.definition;
  const NameSet confirmed =
      read_confirmed(envelope, target_form(catalog, envelope, surroundings), refusals);
  if (envelope.fields == nullptr) return {};
  const ReadContext context{
      surroundings, confirmed, judged_at(envelope, surroundings), {}, envelope.corrects};
  if (definition.kind == kCorrectionKind) {
    return read_correction(catalog, envelope, surroundings, context, refusals);
  }
  ReadForm form = read_form(definition, *envelope.fields, {}, context, refusals);
  check_rules(definition, form, {}, context, refusals);
  return form;
}

/// What could be read, complete only when nothing was refused.
Accepted read_submission(const Catalog& catalog, const base::JsonObject& members,
                         const Surroundings& surroundings, entries::Refusals& refusals) {
  const Envelope envelope = read_envelope(catalog, members, surroundings, refusals);
  Accepted accepted;
  if (envelope.definition == nullptr) return accepted;
  ReadForm form = read_fields(catalog, envelope, surroundings, refusals);
  accepted.clock_offset_ms = envelope.clock_offset_ms;
  entries::Content& content = accepted.content;
  content.id = envelope.id.value_or(base::Uuid{});
  content.kind = envelope.definition->kind;
  content.form_version = envelope.definition->version;
  content.occurred_at = envelope.occurred_at.value_or(base::Timestamp{});
  content.device_seq = envelope.device_seq;
  content.corrects = envelope.corrects;
  content.reason = envelope.reason;
  content.fields = std::move(form.fields);
  content.as_read = std::move(form.as_read);
  content.attachments = envelope.attachments;
  return accepted;
}

/// The world as it was when an entry was taken, as far as its reading goes: what it names is there
/// and in use, its time is past, and what it corrects can be corrected.
class AsWhenTaken : public Surroundings {
 public:
  explicit AsWhenTaken(const Surroundings& today) : today_(today) {}

  [[nodiscard]] base::Instant now() const override { return {INT64_MAX - 2 * kClockToleranceMs}; }
  [[nodiscard]] base::CivilDate day_of(base::Instant moment) const override {
    if (moment >= now()) return {9999, 12, 31};  // of no calendar, and past all that is told
    return today_.day_of(moment);
  }
  [[nodiscard]] std::string person_role() const override { return today_.person_role(); }
  [[nodiscard]] bool person_verified() const override { return true; }
  [[nodiscard]] bool person_may(std::string_view /*competence*/) const override { return true; }
  [[nodiscard]] std::optional<Thing> thing(std::string_view, std::string_view) const override {
    return Thing{};
  }
  [[nodiscard]] std::optional<Target> target(const base::Uuid& id) const override {
    auto target = today_.target(id);
    if (!target) return std::nullopt;
    target->struck = false;
    target->relied_on = false;
    target->own = true;
    return target;
  }
  [[nodiscard]] Ties ties(std::string_view, std::string_view) const override { return {}; }
  [[nodiscard]] std::vector<ToldStage> stages(std::string_view,
                                              const std::optional<base::Uuid>&) const override {
    return {};
  }
  [[nodiscard]] bool knows_attachment(const std::string&) const override { return true; }
  [[nodiscard]] bool stands(const std::string&) const override { return true; }
  [[nodiscard]] std::vector<Suspicion> suspected(std::string_view) const override { return {}; }
  [[nodiscard]] std::vector<Told> told(std::string_view, std::string_view,
                                       const std::optional<base::Uuid>&) const override {
    return {};
  }
  [[nodiscard]] std::optional<Claim> claim(std::uint64_t) const override {
    return Claim{true, false, true};
  }
  [[nodiscard]] std::optional<Log> log(std::string_view,
                                       const std::optional<base::Uuid>&) const override {
    return std::nullopt;
  }
  [[nodiscard]] MonthStanding month(base::CivilMonth,
                                    const std::optional<base::Uuid>&) const override {
    return {};
  }
  [[nodiscard]] std::optional<std::string> digest_at(base::CivilMonth,
                                                     std::uint64_t) const override {
    return std::nullopt;
  }
  [[nodiscard]] std::vector<Hold> holds(const std::optional<base::Uuid>&) const override {
    return {};
  }

 private:
  const Surroundings& today_;
};

/// Whether a refusal speaks of the book as it stands or of who sends, and not of what is said.
bool is_about_today(const entries::Refusal& refusal) {
  switch (refusal.code) {
    case RefusalCode::kNotAllowed:
    case RefusalCode::kThingExists:
    case RefusalCode::kFixedAttribute:
    case RefusalCode::kNothingChanged:
    case RefusalCode::kNothingTaken:
    case RefusalCode::kNotBegun:
    case RefusalCode::kFiguresChanged:
    case RefusalCode::kNotPlaced:
      return true;
    default:
      return false;
  }
}

}  // namespace

base::Result<Accepted, entries::Refusals> validate(const Catalog& catalog,
                                                   const base::Json& submission,
                                                   const Surroundings& surroundings) {
  entries::Refusals refusals;
  const base::JsonObject* members = submission.object();
  if (members == nullptr) {
    refusals.push_back({"", RefusalCode::kNotAnObject, shown_value(submission), "{…}"});
    return refusals;
  }
  Accepted accepted = read_submission(catalog, *members, surroundings, refusals);
  if (!refusals.empty()) return refusals;
  return accepted;
}

bool says_the_same(const Catalog& catalog, const base::Json& submission,
                   const entries::Content& stored, const Surroundings& today) {
  const base::JsonObject* members = submission.object();
  if (members == nullptr) return false;
  entries::Refusals refusals;
  Accepted read = read_submission(catalog, *members, AsWhenTaken(today), refusals);
  if (!std::all_of(refusals.begin(), refusals.end(), is_about_today)) return false;
  read.content.form_version = stored.form_version;
  return read.content == stored;
}

std::optional<base::Uuid> submission_id(const base::Json& submission) {
  const base::Json* id = submission.find("id");
  if (id == nullptr || id->string() == nullptr) return std::nullopt;
  const auto uuid = base::parse_uuid(*id->string());
  return uuid ? std::optional(*uuid) : std::nullopt;
}

}  // namespace benchwarden::forms
