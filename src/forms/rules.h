#pragma once

#include "forms/form_reader.h"

namespace benchwarden::forms {

/// What the effects of a kind demand beyond single values, judged only on what could be read:
/// - changes: an added thing must be new, a changed or retired one must exist and be in use; a
///   change must change something; fixed attributes, and in corrections the thing itself, stay.
///   There is one workshop, `site`, and it stays. A stream is retired after its containers, a
///   container once it is empty by the book.
/// - checks: a thing out of service returns only by a person whom the register has as competent for
///   that, by the effect's `competence`.
/// - containers, logs and collections: see container_rules.h, log_rules.h, collection_rules.h.
/// - ids that come into being by use, and what must be in order: by_use_rules.h, order_rules.h.
/// - findings that are named: finding_rules.h.
/// - closing a month, and lifting a hold: see month_rules.h, hold_rules.h.
/// - answers for entries that came without a PIN: claim_rules.h.
/// - items that failed in a check that passes: item_rules.h.
/// - what is suspected in waste, what was withdrawn and is used, and what does not fit by the book:
///   suspicion_rules.h, use_rules.h, room_rules.h.
void check_rules(const Definition& definition, const ReadForm& form, const Original& original,
                 const ReadContext& context, entries::Refusals& refusals);

/// Striking out the entry that took a thing out of service, or retired it, would return it: the
/// same rules. What later entries of a collection, a stuck part or an event rest on
/// stays. An answer for entries is taken back by who gave it.
void check_strike_out(const Definition& definition, const entries::Fields& struck,
                      const ReadContext& context, entries::Refusals& refusals);

}  // namespace benchwarden::forms
