#include "workshop/record.h"

#include <algorithm>
#include <utility>

#include "forms/month_rules.h"
#include "forms/submission.h"
#include "workshop/chain.h"
#include "workshop/rule_adoption.h"
#include "workshop/signer.h"
#include "workshop/surroundings.h"

namespace benchwarden::workshop {
namespace {

/// Whether an entry of this kind alters what other entries are checked against.
bool changes_ground(const forms::Catalog& catalog, const base::Json& submission) {
  const base::Json* kind = submission.find("kind");
  const forms::Definition* definition =
      kind == nullptr || kind->string() == nullptr ? nullptr : catalog.find(*kind->string());
  if (definition == nullptr || definition->effects.empty()) return true;
  if (definition->kind == forms::kMonthClose) return true;  // a month is closed once
  return std::any_of(definition->effects.begin(), definition->effects.end(),
                     [](const forms::EffectDefinition& effect) {
                       return effect.effect != "adds" && effect.effect != "reads" &&
                              effect.effect != "notes";
                     });
}

RecordOutcome append(const Ports& ports, const Actor& actor, forms::Accepted accepted) {
  const base::Uuid id = accepted.content.id;
  auto about = subjects_of(ports.book, ports.definitions.catalog, accepted.content);
  if (!about) return about.error();
  book::Draft draft;
  draft.subjects = *std::move(about);
  draft.content = std::move(accepted.content);
  draft.signature = {actor.person, actor.verified, actor.device, accepted.clock_offset_ms};
  const auto receipt = ports.book.append(draft);
  if (!receipt) return receipt.error();
  return Recorded{id, *receipt};
}

/// The form of what is told and, for a correction, that of the entry it names: their labels are
/// what people know the fields by.
std::vector<const forms::Definition*> forms_of(const Ports& ports, const base::Json& submission) {
  const forms::Catalog& catalog = ports.definitions.catalog;
  std::vector<const forms::Definition*> forms;
  const auto add = [&](const std::string& kind) {
    if (const forms::Definition* form = catalog.find(kind)) forms.push_back(form);
  };
  const base::Json* kind = submission.find("kind");
  if (kind != nullptr && kind->string() != nullptr) add(*kind->string());
  const base::Json* corrects = submission.find("corrects");
  if (corrects == nullptr || corrects->string() == nullptr) return forms;
  const auto id = base::parse_uuid(*corrects->string());
  if (!id) return forms;
  if (const auto target = ports.book.entry(*id)) add(target->content.kind);
  return forms;
}

Faults in_words(const Ports& ports, const base::Json& submission,
                const entries::Refusals& refusals) {
  const std::vector<const forms::Definition*> forms = forms_of(ports, submission);
  Faults faults;
  for (const entries::Refusal& refusal : refusals) {
    faults.push_back({refusal.pointer, std::string(entries::refusal_key(refusal.code)),
                      ports.definitions.wording.sentence(refusal, forms)});
  }
  return faults;
}

/// An entry that is in the book already is answered as the first time, whatever has become since
/// then of the things and the entry it names.
std::optional<RecordOutcome> already_recorded(const Ports& ports, const base::Json& submission) {
  const auto id = forms::submission_id(submission);
  if (!id) return std::nullopt;
  const auto stored = ports.book.entry(*id);
  if (!stored && stored.error().code == base::ErrorCode::kNotFound) return std::nullopt;
  if (!stored) return stored.error();
  if (!forms::says_the_same(ports.definitions.catalog, submission, stored->content,
                            BookSurroundings(ports, Actor{}, stored->seq))) {
    return base::Error{base::ErrorCode::kConflict,
                       "an entry with this id and other content is in the book as no. " +
                           std::to_string(stored->seq)};
  }
  const auto hash = ports.book.leaf_hash(stored->seq);
  if (!hash) return hash.error();
  return Recorded{*id, {stored->seq, stored->recorded_at, *hash, true}};
}

/// A correction may make any entry of a kind the weighty one, or undo it.
bool wants_confirmation(const Ports& ports, const entries::Content& content) {
  const forms::Catalog& catalog = ports.definitions.catalog;
  if (content.corrects) {
    const auto target = ports.book.entry(*content.corrects);
    const forms::Definition* form = target ? catalog.find(target->content.kind) : nullptr;
    return form != nullptr && !form->confirmed_when.empty();
  }
  const forms::Definition& form = *catalog.find(content.kind);
  return !form.confirmed_when.empty() && forms::holds(form.confirmed_when, content.fields);
}

RecordOutcome judge_and_append(const Ports& ports, const Sender& sender,
                               const base::Json& submission) {
  const auto actor = signer_of(ports, sender, submission);
  if (!actor) return in_words(ports, submission, actor.error());
  auto accepted =
      forms::validate(ports.definitions.catalog, submission, BookSurroundings(ports, *actor));
  if (!accepted) return in_words(ports, submission, accepted.error());
  if (!sender.is_confirmed && wants_confirmation(ports, accepted->content)) {
    return ConfirmationNeeded{};
  }
  return append(ports, *actor, *std::move(accepted));
}

RecordOutcome record_in_turn(const Ports& ports, const Sender& sender,
                             const base::Json& submission) {
  RecordOutcome outcome = judge_and_append(ports, sender, submission);
  if (std::holds_alternative<Recorded>(outcome)) return outcome;
  // What is in the book already was judged against what it did itself. Looked at only now, since
  // nearly everything that comes is new; and in the turn, since it may have come a moment ago.
  if (auto before = already_recorded(ports, submission)) return *std::move(before);
  return outcome;
}

}  // namespace

RecordOutcome record(const Ports& ports, const Sender& sender, const base::Json& submission) {
  if (changes_ground(ports.definitions.catalog, submission)) {
    const auto turn = ports.admission.alone();
    RecordOutcome outcome = record_in_turn(ports, sender, submission);
    follow_register(ports);
    return outcome;
  }
  const auto turn = ports.admission.beside_others();
  return record_in_turn(ports, sender, submission);
}

}  // namespace benchwarden::workshop
