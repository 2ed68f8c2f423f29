#include "workshop/fold.h"

#include <algorithm>
#include <variant>

#include "forms/played_roles.h"
#include "forms/submission.h"
#include "workshop/chain.h"

namespace benchwarden::workshop {
namespace {

tallies::SentBy sent_by(const entries::Entry& entry) {
  return {entry.signature.device.value_or(""), entry.content.device_seq};
}

/// What forms never took, somebody else wrote: it must not be folded.
base::Result<entries::Effects> checked_effects(const forms::Catalog& catalog,
                                               const entries::Content& content) {
  const auto played = forms::check_roles(catalog, content);
  if (!played) return played.error();
  return forms::effects_of(catalog, content);
}

base::Result<tallies::Posting> posting_of(const entries::Entry& entry,
                                          const forms::Catalog& catalog) {
  auto effects = checked_effects(catalog, entry.content);
  if (!effects) return effects.error();
  return tallies::Posting{entry.seq,           entry.content.occurred_at.instant,
                          entry.recorded_at,   entry.signature.person_verified,
                          *std::move(effects), sent_by(entry)};
}

base::Result<tallies::Amendment> amendment_of(const entries::Entry& correction,
                                              const book::EntrySource& book,
                                              const forms::Catalog& catalog) {
  auto target = book.entry(*correction.content.corrects);
  if (!target) {
    const bool missing = target.error().code == base::ErrorCode::kNotFound;
    return base::Error{missing ? base::ErrorCode::kDamaged : target.error().code,
                       "the entry that entry " + std::to_string(correction.seq) +
                           " corrects: " + target.error().detail};
  }
  const auto chain = chain_of(book, catalog, *std::move(target), correction.seq);
  if (!chain) return chain.error();
  tallies::Amendment amendment;
  amendment.seq = correction.seq;
  amendment.recorded_at = correction.recorded_at;
  amendment.target_seq = chain->entry.seq;
  amendment.target_occurred_at = chain->entry.content.occurred_at.instant;
  amendment.person_verified = correction.signature.person_verified;
  amendment.sent_by = sent_by(correction);
  amendment.struck = forms::strikes_out(correction.content);
  if (chain->struck) return amendment;
  auto before = checked_effects(catalog, chain->effective);
  if (!before) return before.error();
  amendment.before = *std::move(before);
  if (amendment.struck) return amendment;
  auto after =
      checked_effects(catalog, forms::merged(catalog, chain->effective, correction.content));
  if (!after) return after.error();
  amendment.after = *std::move(after);
  return amendment;
}

base::Result<bool> concerns_register(const entries::Entry& entry, const forms::Catalog& catalog) {
  const auto effects = checked_effects(catalog, entry.content);
  if (!effects) return effects.error();
  return std::any_of(effects->begin(), effects->end(), [](const entries::Effect& effect) {
    return std::holds_alternative<entries::Changes>(effect);
  });
}

base::Result<bool> happened_later(const entries::Entry& entry, const forms::Catalog& catalog,
                                  base::Instant as_of) {
  if (entry.content.occurred_at.instant <= as_of) return false;
  const auto concerns = concerns_register(entry, catalog);
  if (!concerns) return concerns.error();
  return !*concerns;
}

/// Whether the entry, or the one it corrects, happened after the moment that is asked for.
base::Result<bool> happened_later(const entries::Entry& entry, const book::EntrySource& book,
                                  const forms::Catalog& catalog, base::Instant as_of) {
  if (entry.content.corrects) {
    const auto target = book.entry(*entry.content.corrects);
    if (!target) return target.error();
    return happened_later(*target, catalog, as_of);
  }
  return happened_later(entry, catalog, as_of);
}

}  // namespace

base::Status<> fold(tallies::State& state, const entries::Entry& entry,
                    const book::EntrySource& book, const forms::Catalog& catalog) {
  if (entry.seq != state.size() + 1) {
    return base::Error{base::ErrorCode::kDamaged, "entry " + std::to_string(state.size() + 1) +
                                                      " comes next, and the book has entry " +
                                                      std::to_string(entry.seq)};
  }
  if (!entry.content.corrects) {
    const auto posting = posting_of(entry, catalog);
    if (!posting) return posting.error();
    state.apply(*posting);
    return base::Done{};
  }
  const auto amendment = amendment_of(entry, book, catalog);
  if (!amendment) return amendment.error();
  state.apply(*amendment);
  return base::Done{};
}

base::Result<tallies::State> refold(const book::Book& book, const forms::Catalog& catalog,
                                    const Viewpoint& view) {
  tallies::State state;
  const base::Error enough{base::ErrorCode::kNotFound, ""};
  bool reached = false;
  const auto walked = book.each(1, [&](const entries::Entry& entry) -> base::Status<> {
    if (entry.seq > view.known_at) {
      reached = true;
      return enough;
    }
    const auto later = happened_later(entry, book, catalog, view.as_of);
    if (!later) return later.error();
    if (*later) {
      // Left out by the viewpoint, and still one entry of the book.
      state.apply(tallies::Posting{entry.seq, {}, {}, true, {}});
      return base::Done{};
    }
    return fold(state, entry, book, catalog);
  });
  if (!walked && !reached) return walked.error();
  return state;
}

}  // namespace benchwarden::workshop
