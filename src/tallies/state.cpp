#include "tallies/state.h"

#include <cassert>
#include <set>
#include <utility>
#include <variant>

#include "tallies/rows.h"

namespace benchwarden::tallies {
namespace {

using ThingKey = std::pair<std::string, std::string>;  ///< class, id

/// The effects of one type, in order.
template <class T>
std::vector<const T*> all_of(const entries::Effects& effects) {
  std::vector<const T*> found;
  for (const entries::Effect& effect : effects) {
    if (const auto* wanted = std::get_if<T>(&effect)) found.push_back(wanted);
  }
  return found;
}

}  // namespace

void State::decide_service(std::string_view thing_class, std::string_view id) {
  under_care_.set_in_service(thing_class, id, records_.in_service(thing_class, id));
}

void State::change_register(const Posting& posting) {
  for (const auto* changes : all_of<entries::Changes>(posting.effects)) {
    under_care_.post(posting.occurred_at, posting.seq, *changes);
    decide_service(changes->thing_class, changes->thing);
  }
}

void State::apply(const Posting& posting) {
  assert(posting.seq > size_);
  size_ = posting.seq;
  devices_.post(posting.sent_by);
  // The register first: an entry that enters a container and fills it is counted as it says.
  change_register(posting);
  flow_.post(rows_of(posting.effects, posting.occurred_at, posting.seq, under_care_));
  for (const auto* checks : all_of<entries::Checks>(posting.effects)) {
    records_.post(posting.occurred_at, posting.seq, *checks);
    if (checks->outcome != entries::Outcome::kRecorded) {
      decide_service(checks->thing_class, checks->thing);
    }
  }
  for (const auto* notes : all_of<entries::Notes>(posting.effects)) {
    records_.post(posting.occurred_at, posting.seq, *notes);
  }
  for (const auto* takes : all_of<entries::Takes>(posting.effects)) {
    collections_.post(posting.occurred_at, posting.seq, *takes);
  }
  for (const auto* confirms : all_of<entries::Confirms>(posting.effects)) {
    claims_.answer(posting.seq, *confirms);
  }
  if (!posting.person_verified) claims_.post(posting.seq);
  if (posting.recorded_at.ms - kLagKeptMs > posting.occurred_at.ms) {
    lagging_.push_back({posting.occurred_at, posting.recorded_at, posting.seq, 0});
  }
}

void State::amend_register(const Amendment& amendment, const entries::Effects& after) {
  std::set<ThingKey> touched;
  for (const auto* changes : all_of<entries::Changes>(amendment.before)) {
    touched.emplace(changes->thing_class, changes->thing);
  }
  const auto now = all_of<entries::Changes>(after);
  for (const auto* changes : now) touched.emplace(changes->thing_class, changes->thing);
  for (const auto& [thing_class, id] : touched) {
    under_care_.withdraw(amendment.target_seq, thing_class, id);
  }
  for (const auto* changes : now) {
    under_care_.post(amendment.target_occurred_at, amendment.target_seq, *changes);
  }
  for (const auto& [thing_class, id] : touched) decide_service(thing_class, id);
}

void State::amend_records(const Amendment& amendment, const entries::Effects& after) {
  const auto touched =
      records_.amend(amendment.target_occurred_at, amendment.target_seq, amendment.before, after);
  for (const auto& [thing_class, id] : touched) decide_service(thing_class, id);
}

void State::amend_collections(const Amendment& amendment, const entries::Effects& after) {
  for (const auto* takes : all_of<entries::Takes>(amendment.before)) {
    collections_.withdraw(amendment.target_occurred_at, amendment.target_seq, takes->collection);
  }
  for (const auto* takes : all_of<entries::Takes>(after)) {
    collections_.post(amendment.target_occurred_at, amendment.target_seq, *takes);
  }
}

void State::amend_claims(const Amendment& amendment, const entries::Effects& after) {
  for (const auto* confirms : all_of<entries::Confirms>(amendment.before)) {
    claims_.withdraw(amendment.target_seq, *confirms);
  }
  for (const auto* confirms : all_of<entries::Confirms>(after)) {
    claims_.answer(amendment.target_seq, *confirms);
  }
}

void State::apply(const Amendment& amendment) {
  assert(amendment.seq > size_ && amendment.target_seq < amendment.seq);
  size_ = amendment.seq;
  devices_.post(amendment.sent_by);
  if (!amendment.person_verified) claims_.post(amendment.seq);
  corrected_.push_back(
      {amendment.target_occurred_at, amendment.recorded_at, amendment.target_seq, amendment.seq});
  const entries::Effects after = amendment.struck ? entries::Effects{} : amendment.after;
  // A correction of what no tally keeps changes no figure.
  if (after == amendment.before) return;
  amend_register(amendment, after);
  const auto rows = [&](const entries::Effects& effects) {
    return rows_of(effects, amendment.target_occurred_at, amendment.target_seq, under_care_);
  };
  flow_.amend(amendment.target_occurred_at, amendment.target_seq, rows(amendment.before),
              rows(after));
  amend_records(amendment, after);
  amend_collections(amendment, after);
  amend_claims(amendment, after);
}

}  // namespace benchwarden::tallies
