#include "workshop/form_entries.h"

#include <algorithm>

#include "forms/thing_class.h"
#include "workshop/judgement.h"

namespace benchwarden::workshop {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

constexpr std::int64_t kMinuteMs = 60'000;
constexpr const char* kDigest = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";

Json* member(JsonObject& object, std::string_view name) {
  for (auto& [known, value] : object) {
    if (known == name) return &value;
  }
  return nullptr;
}

void put(JsonObject& object, const std::string& name, Json value) {
  if (Json* known = member(object, name)) {
    *known = std::move(value);
  } else {
    object.emplace_back(name, std::move(value));
  }
}

void drop(JsonObject& object, std::string_view name) {
  object.erase(std::remove_if(object.begin(), object.end(),
                              [&](const auto& one) { return one.first == name; }),
               object.end());
}

std::string word(const JsonObject& object, std::string_view name) {
  for (const auto& [known, value] : object) {
    if (known == name && value.string() != nullptr) return *value.string();
  }
  return "";
}

}  // namespace

FormEntries::FormEntries(TestWorkshop& workshop, std::uint64_t seed)
    : workshop_(workshop), random_(seed), now_(workshop.clock.now()) {}

base::Instant FormEntries::moment() {
  const std::int64_t start = at("2026-09-01T00:00:00Z").ms;
  return {start + static_cast<std::int64_t>(pick(static_cast<std::uint64_t>(now_.ms - start)))};
}

/// Mostly a few minutes ago; every third is up to eleven weeks old.
std::string FormEntries::when() {
  const auto days = static_cast<std::int64_t>(one_in(3) ? 1 + pick(77) : 0);
  return base::format_rfc3339_utc(
      {now_.ms - days * base::kDayMs - static_cast<std::int64_t>(pick(600)) * kMinuteMs / 10});
}

std::string FormEntries::date() {
  const auto days = static_cast<std::int64_t>(pick(400)) - 200;
  return base::format_rfc3339_utc({now_.ms + days * base::kDayMs}).substr(0, 10);
}

std::string FormEntries::known_thing(const std::string& thing_class) {
  const auto state = workshop_.ports().live.view();
  const auto& things = state->things(thing_class);
  if (things.empty()) return "none";
  return std::next(things.begin(), static_cast<std::ptrdiff_t>(pick(things.size())))->first;
}

/// Of a class by use: one of the last few, or a new one. Of the register: a known one; a new one
/// where the register itself is told.
Json FormEntries::id_of(const forms::FieldDefinition& field, const JsonObject& beside) {
  const std::string thing_class =
      field.thing_class.empty() ? word(beside, field.class_field) : field.thing_class;
  if (forms::is_class_by_use(thing_class)) {
    if (one_in(3)) ++made_;
    return "u" + std::to_string(made_ - std::min<std::uint64_t>(made_, pick(4)));
  }
  if (word(beside, "act") == "added") return "t" + std::to_string(pick(12));
  return known_thing(thing_class);
}

Json FormEntries::amount(const forms::FieldDefinition& field) {
  const forms::Band band = field.normal.value_or(field.possible);
  const std::int64_t step = field.whole ? 1000 : 1;
  const std::int64_t span = (band.highest.thousandths - band.lowest.thousandths) / step;
  // Small amounts are the usual ones.
  const std::int64_t most = one_in(4) ? span : std::min<std::int64_t>(span, 200'000 / step);
  const auto drawn = static_cast<std::int64_t>(pick(static_cast<std::uint64_t>(most) + 1)) * step;
  return base::JsonNumber{base::format_decimal(base::Decimal{band.lowest.thousandths + drawn})};
}

Json FormEntries::text(const forms::FieldDefinition& field) {
  switch (field.format) {
    case forms::TextFormat::kMonth:
      return date().substr(0, 7);
    case forms::TextFormat::kTimeZone:
      return "Europe/Berlin";
    case forms::TextFormat::kLowCode:
      return one_in(2) ? "13 01 10" : "15 02 02";
    case forms::TextFormat::kSha256:
      return kDigest;
    case forms::TextFormat::kAny:
      break;
  }
  if (field.name == "finding") return finding();
  // A document comes back under the number with which it went.
  return "N " + std::to_string(pick(field.name == "document_number" ? 3 : 1000));
}

/// The key of one that stands; what no rule finds is refused.
Json FormEntries::finding() {
  const auto said = judge(workshop_.ports(), *workshop_.ports().live.view(), now_);
  if (!said || said->findings.empty()) return "none";
  return findings::key_of(said->findings[pick(said->findings.size())]);
}

Json FormEntries::rows(const forms::FieldDefinition& field) {
  JsonArray all;
  for (std::uint64_t i = 0, count = 1 + pick(3); i < count; ++i) {
    JsonObject row;
    for (const forms::FieldDefinition& column : field.columns) {
      if (column.required || one_in(2)) put(row, column.name, value(column, row));
    }
    all.emplace_back(std::move(row));
  }
  return all;
}

Json FormEntries::value(const forms::FieldDefinition& field, const JsonObject& beside) {
  switch (field.type) {
    case entries::FieldType::kQuantity:
      return amount(field);
    case entries::FieldType::kId:
      return id_of(field, beside);
    case entries::FieldType::kDate:
      return date();
    case entries::FieldType::kCode:
      return field.options.at(pick(field.options.size())).code;
    case entries::FieldType::kText:
      return text(field);
    case entries::FieldType::kList:
      return rows(field);
  }
  return nullptr;
}

bool FormEntries::applies(const forms::Conditions& conditions, const JsonObject& fields) {
  return std::all_of(conditions.begin(), conditions.end(), [&](const forms::Condition& one) {
    const std::string held = word(fields, one.field);
    return std::find(one.codes.begin(), one.codes.end(), held) != one.codes.end();
  });
}

JsonObject FormEntries::filled(const forms::Definition& form) {
  JsonObject fields;
  for (int pass = 0; pass < 2; ++pass) {  // conditions may name a field further down
    for (const forms::FieldDefinition& field : form.fields) {
      if (field.retired || member(fields, field.name) != nullptr) continue;
      if (!applies(field.when, fields)) continue;
      const bool wanted =
          field.required || (!field.required_when.empty() && applies(field.required_when, fields));
      if (wanted || (pass == 0 && one_in(3))) put(fields, field.name, value(field, fields));
    }
  }
  return fields;
}

Told FormEntries::fresh() {
  const auto& all = workshop_.ports().definitions.catalog.definitions();
  do {
    form_ = &all.at(pick(all.size()));
  } while (form_->kind == forms::kCorrectionKind || form_->kind == left_out_);
  JsonObject fields = filled(*form_);
  return tell(form_->kind, base::write_json(fields), when());
}

/// Of any earlier entry, half of the time one of the last: one or two of its fields drawn anew.
Told FormEntries::correction() {
  const std::size_t back =
      one_in(2) ? pick(std::min<std::size_t>(sent_.size(), 8)) : pick(sent_.size());
  const Sent& target = sent_.at(sent_.size() - 1 - back);
  form_ = target.form;
  if (one_in(4)) return strike_out(target.id, base::format_rfc3339_utc(now_));
  JsonObject changed;
  const JsonObject drawn = filled(*form_);
  for (std::uint64_t i = 0, count = 1 + pick(2); i < count && !drawn.empty(); ++i) {
    const auto& [name, value] = drawn.at(pick(drawn.size()));
    put(changed, name, value);
  }
  if (changed.empty()) return strike_out(target.id, base::format_rfc3339_utc(now_));
  return correct(target.id, base::write_json(changed), base::format_rfc3339_utc(now_));
}

/// Does what each refusal asks for: confirms, leaves out, fills in, draws again.
void FormEntries::mend(JsonObject& submission, const std::vector<std::string>& faults) {
  JsonObject& fields = *member(submission, "fields")->object();
  JsonArray confirmed;
  if (const Json* known = member(submission, "confirmed")) confirmed = *known->array();
  for (const std::string& fault : faults) {
    const std::string code = fault.substr(fault.rfind(' ') + 1);
    std::string path = fault.substr(0, fault.rfind(' '));
    if (path.rfind("/fields/", 0) != 0) continue;
    path = path.substr(8);
    const std::string name = path.substr(0, path.find('/'));
    const forms::FieldDefinition* field = forms::find_field(*form_, name);
    if (code == "needs_confirmation") {
      confirmed.emplace_back(path);
    } else if (code == "field_not_applicable" || field == nullptr) {
      drop(fields, name);
    } else {
      put(fields, name, value(*field, fields));
    }
  }
  if (!confirmed.empty()) put(submission, "confirmed", std::move(confirmed));
}

void FormEntries::note(const JsonObject& submission) {
  const std::string kind = word(submission, "kind");
  JsonObject copy = submission;
  const JsonObject& fields = *member(copy, "fields")->object();
  const bool struck = word(fields, "action") == "struck-out";
  ++accepted_[struck ? "struck-out" : kind];
  if (at(word(submission, "occurred_at")).ms < now_.ms - base::kDayMs / 2) ++late_;
  if (kind != forms::kCorrectionKind && form_->correctable) {
    sent_.push_back({word(submission, "id"), form_});
  }
}

bool FormEntries::tried(Told told) {
  const bool daemon = form_->roles_allowed.front() == "daemon" &&
                      word(*told.json.object(), "kind") != forms::kCorrectionKind;
  const Actor actor{one_in(2) ? "p1" : "p2", daemon ? "daemon" : "manager", !one_in(9)};
  for (int turn = 0; turn < 6; ++turn) {
    const auto outcome = workshop_.send(told, actor);
    if (std::holds_alternative<Recorded>(outcome)) {
      note(*told.json.object());
      return true;
    }
    const auto faults = faults_of(outcome);
    if (faults.empty()) {
      ADD_FAILURE() << std::get<base::Error>(outcome).detail << base::write_json(told.json);
      return false;
    }
    mend(*told.json.object(), faults);
  }
  return false;
}

void FormEntries::send(int accepted) {
  for (int done = 0; done < accepted;) {
    now_.ms += static_cast<std::int64_t>(pick(60)) * kMinuteMs;
    workshop_.clock.set(now_);
    const bool corrects = !sent_.empty() && one_in(4);
    if (tried(corrects ? correction() : fresh())) ++done;
  }
}

}  // namespace benchwarden::workshop
