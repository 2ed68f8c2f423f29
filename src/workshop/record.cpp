#include "workshop/record.h"

#include <algorithm>
#include <utility>

#include "forms/submission.h"
#include "workshop/surroundings.h"

namespace benchwarden::workshop {
namespace {

/// Whether an entry of this kind alters what other entries are checked against.
bool changes_ground(const forms::Catalog& catalog, const base::Json& submission) {
  const base::Json* kind = submission.find("kind");
  const forms::Definition* definition =
      kind == nullptr || kind->string() == nullptr ? nullptr : catalog.find(*kind->string());
  if (definition == nullptr || definition->effects.empty()) return true;
  return std::any_of(definition->effects.begin(), definition->effects.end(),
                     [](const forms::EffectDefinition& effect) {
                       return effect.effect != "adds" && effect.effect != "reads" &&
                              effect.effect != "notes";
                     });
}

std::vector<std::string> subjects(const Ports& ports, const entries::Content& content) {
  std::vector<std::string> all = forms::subjects_of(ports.definitions.catalog, content);
  if (content.corrects) {
    // A correction is about what its target was and is about.
    const auto target = ports.book.entry(*content.corrects);
    if (target) {
      const auto add = [&](const entries::Content& about) {
        for (std::string& subject : forms::subjects_of(ports.definitions.catalog, about)) {
          all.push_back(std::move(subject));
        }
      };
      add(target->content);
      add(forms::merged(ports.definitions.catalog, target->content, content));
    }
  }
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

RecordOutcome append(const Ports& ports, const Actor& actor, forms::Accepted accepted) {
  const base::Uuid id = accepted.content.id;
  book::Draft draft;
  draft.subjects = subjects(ports, accepted.content);
  draft.content = std::move(accepted.content);
  draft.signature = {actor.person, actor.verified, std::nullopt, accepted.clock_offset_ms};
  const auto receipt = ports.book.append(draft);
  if (!receipt) return receipt.error();
  return Recorded{id, *receipt};
}

Faults in_words(const Ports& ports, const entries::Refusals& refusals) {
  Faults faults;
  for (const entries::Refusal& refusal : refusals) {
    faults.push_back({refusal.pointer, std::string(entries::refusal_key(refusal.code)),
                      ports.definitions.wording.sentence(refusal)});
  }
  return faults;
}

/// An entry that is in the book already is answered as the first time, whatever has become of the
/// things it names since then.
std::optional<RecordOutcome> already_recorded(const Ports& ports, const Actor& actor,
                                              const base::Json& submission) {
  const auto id = forms::submission_id(submission);
  if (!id) return std::nullopt;
  const auto stored = ports.book.entry(*id);
  if (!stored) return std::nullopt;
  if (!forms::says_the_same(ports.definitions.catalog, submission, stored->content,
                            BookSurroundings(ports, actor))) {
    return base::Error{base::ErrorCode::kConflict,
                       "an entry with this id and other content is in the book as no. " +
                           std::to_string(stored->seq)};
  }
  const auto hash = ports.book.leaf_hash(stored->seq);
  if (!hash) return hash.error();
  return Recorded{*id, {stored->seq, stored->recorded_at, *hash, true}};
}

}  // namespace

RecordOutcome record_in_turn(const Ports& ports, const Actor& actor, const base::Json& submission) {
  auto accepted =
      forms::validate(ports.definitions.catalog, submission, BookSurroundings(ports, actor));
  if (!accepted) return in_words(ports, accepted.error());
  return append(ports, actor, *std::move(accepted));
}

RecordOutcome record(const Ports& ports, const Actor& actor, const base::Json& submission) {
  if (auto outcome = already_recorded(ports, actor, submission)) return *std::move(outcome);
  if (changes_ground(ports.definitions.catalog, submission)) {
    const auto turn = ports.admission.alone();
    return record_in_turn(ports, actor, submission);
  }
  const auto turn = ports.admission.beside_others();
  return record_in_turn(ports, actor, submission);
}

}  // namespace benchwarden::workshop
