#include "workshop/report_input.h"

#include <algorithm>
#include <map>
#include <utility>

#include "workshop/chain.h"
#include "workshop/judgement.h"
#include "workshop/month_close.h"

namespace benchwarden::workshop {
namespace {

using Gathered = std::map<std::uint64_t, reports::RecordedEntry>;

/// The entry with its corrections; for a correction its target, which may stand outside the
/// selection (a correction can bring an entry to another thing).
base::Status<> gather_one(const Ports& ports, entries::Entry entry, std::uint64_t known_at,
                          Gathered& gathered) {
  if (entry.content.corrects) {
    auto target = ports.book.entry(*entry.content.corrects);
    if (!target) return target.error();
    entry = *std::move(target);
  }
  if (gathered.contains(entry.seq)) return base::Done{};
  const std::uint64_t seq = entry.seq;
  auto chain = chain_of(ports.book, ports.definitions.catalog, std::move(entry), known_at + 1);
  if (!chain) return chain.error();
  gathered.emplace(seq,
                   reports::RecordedEntry{std::move(chain->entry), std::move(chain->corrections),
                                          std::move(chain->effective.fields), chain->struck});
  return base::Done{};
}

/// Reads the whole selection, page by page.
base::Status<> gather_into(const Ports& ports, book::Selection selection, Gathered& gathered) {
  constexpr std::size_t kPage = 500;
  selection.limit = kPage;
  for (;;) {
    auto page = ports.book.select(selection);
    if (!page) return page.error();
    for (entries::Entry& entry : *page) {
      selection.after_seq = entry.seq;
      const auto done = gather_one(ports, std::move(entry), selection.known_at, gathered);
      if (!done) return done.error();
    }
    if (page->size() < kPage) return base::Done{};
  }
}

/// What the selections hold, each entry once, in book order.
base::Result<std::vector<reports::RecordedEntry>> gather(
    const Ports& ports, const std::vector<book::Selection>& selections) {
  Gathered gathered;
  for (const book::Selection& selection : selections) {
    const auto done = gather_into(ports, selection, gathered);
    if (!done) return done.error();
  }
  std::vector<reports::RecordedEntry> in_order;
  for (auto& [seq, recorded] : gathered) in_order.push_back(std::move(recorded));
  return in_order;
}

void name_person(const Ports& ports, const entries::Entry& entry, reports::Names& names) {
  const std::string& person = entry.signature.person;
  if (!names.contains(person)) names.emplace(person, ports.names.display_name(person));
}

void name_persons(const Ports& ports, const std::vector<reports::RecordedEntry>& entries,
                  reports::Names& names) {
  for (const reports::RecordedEntry& recorded : entries) {
    name_person(ports, recorded.entry, names);
    for (const entries::Entry& correction : recorded.corrections) {
      name_person(ports, correction, names);
    }
  }
}

void add_field_texts(const std::string& prefix, const std::vector<forms::FieldDefinition>& fields,
                     reports::FormTexts& texts) {
  for (const forms::FieldDefinition& field : fields) {
    const std::string path = prefix + "/" + field.name;
    texts.titles.emplace(path, field.label);
    for (const forms::CodeOption& option : field.options) {
      texts.titles.emplace(path + "/" + option.code, option.label);
    }
    add_field_texts(path, field.columns, texts);
  }
}

reports::FormTexts form_texts(const forms::Catalog& catalog) {
  reports::FormTexts texts;
  for (const forms::Definition& definition : catalog.definitions()) {
    texts.titles.emplace(definition.kind, definition.title);
    add_field_texts(definition.kind, definition.fields, texts);
  }
  return texts;
}

/// A report's only times are those of the book, so that an equal book gives equal bytes. An entry
/// whose sender's clock runs ahead still counts, unless it was struck out.
base::Result<reports::Basis> basis_of(const Ports& ports, const base::Zone& zone,
                                      std::uint64_t size,
                                      const std::vector<reports::RecordedEntry>& entries) {
  base::Instant last_recorded;
  if (size > 0) {
    const auto last = ports.book.entry(size);
    if (!last) return last.error();
    last_recorded = last->recorded_at;
  }
  base::Instant latest = last_recorded;
  for (const reports::RecordedEntry& recorded : entries) {
    if (!recorded.struck) latest = std::max(latest, recorded.entry.content.occurred_at.instant);
  }
  const auto root = ports.book.root_at(size);
  if (!root) return root.error();
  const auto standing = ports.definitions.origin == FileOrigin::kBuiltIn
                            ? document::Standing::kForIssue
                            : document::Standing::kNotForIssue;
  return reports::Basis{zone, size, *root, latest, last_recorded, standing, ""};
}

base::Result<std::vector<reports::PackStated>> packs_of(const Ports& ports,
                                                        const tallies::State& state) {
  const auto book = rules_in_force(ports, state);
  if (!book) return book.error();
  std::vector<reports::PackStated> packs;
  for (const rules::RuleBook::InForce& pack : (*book)->packs()) {
    packs.push_back({pack.id, pack.title, pack.edition, pack.digest});
  }
  return packs;
}

base::Result<ReportInput> complete(const Ports& ports, tallies::State state,
                                   std::vector<reports::RecordedEntry> entries,
                                   std::vector<reports::RecordedEntry> changes) {
  auto basis = basis_of(ports, zone_of(state), state.size(), entries);
  if (!basis) return basis.error();
  auto packs = packs_of(ports, state);
  if (!packs) return packs.error();
  basis->packs = *std::move(packs);
  ReportInput input{std::move(state),   *basis, std::move(entries),
                    std::move(changes), {},     form_texts(ports.definitions.catalog),
                    std::nullopt};
  name_persons(ports, input.entries, input.names);
  name_persons(ports, input.changes, input.names);
  return input;
}

}  // namespace

base::Result<ReportInput> waste_month_input(const Ports& ports, base::CivilMonth month) {
  tallies::State state = *ports.live.still();
  const base::Zone zone = zone_of(state);
  book::Selection selection;
  selection.from = zone.start_of(month);
  selection.until = zone.start_of(base::next_month(month));
  selection.known_at = state.size();
  book::Selection register_entries;
  register_entries.kind = "register-change";
  register_entries.known_at = state.size();
  auto entries = gather(ports, {selection, register_entries});
  if (!entries) return entries.error();
  auto closing = month_closing(ports, state, month);
  if (!closing) return closing.error();
  auto input = complete(ports, std::move(state), *std::move(entries), {});
  if (!input) return input;
  if (*closing) name_person(ports, (*closing)->entry, input->names);
  input->closing = *std::move(closing);
  return input;
}

base::Result<ReportInput> days_input(const Ports& ports, const Days& days) {
  tallies::State state = *ports.live.still();
  const base::Zone zone = zone_of(state);
  book::Selection selection;
  selection.from = zone.start_of(days.from);
  selection.until = zone.start_of(base::add_days(days.to, 1));
  selection.known_at = state.size();
  auto entries = gather(ports, {selection});
  if (!entries) return entries.error();
  return complete(ports, std::move(state), *std::move(entries), {});
}

base::Result<ReportInput> waste_year_input(const Ports& ports, int year) {
  return days_input(ports, {base::first_day({year, 1}), base::last_day({year, 12})});
}

base::Result<ReportInput> collection_input(const Ports& ports,
                                           const findings::Subject& collection) {
  tallies::State state = *ports.live.still();
  book::Selection selection;
  selection.subject = collection.thing_class + "/" + collection.id;
  selection.known_at = state.size();
  auto entries = gather(ports, {selection});
  if (!entries) return entries.error();
  return complete(ports, std::move(state), *std::move(entries), {});
}

base::Result<ReportInput> history_input(const Ports& ports, const findings::Subject& thing,
                                        std::string_view check_kind) {
  tallies::State state = *ports.live.still();
  book::Selection selection;
  selection.subject = thing.thing_class + "/" + thing.id;
  selection.known_at = state.size();
  auto all = gather(ports, {selection});
  if (!all) return all.error();
  std::vector<reports::RecordedEntry> checks;
  std::vector<reports::RecordedEntry> changes;
  for (reports::RecordedEntry& recorded : *all) {
    const std::string& kind = recorded.entry.content.kind;
    if (kind == "register-change")
      changes.push_back(std::move(recorded));
    else if (kind == check_kind)
      checks.push_back(std::move(recorded));
  }
  return complete(ports, std::move(state), std::move(checks), std::move(changes));
}

base::Result<ReportInput> kinds_input(const Ports& ports, const std::vector<std::string>& kinds) {
  tallies::State state = *ports.live.still();
  std::vector<book::Selection> selections;
  for (const std::string& kind : kinds) {
    book::Selection selection;
    selection.kind = kind;
    selection.known_at = state.size();
    selections.push_back(std::move(selection));
  }
  auto entries = gather(ports, selections);
  if (!entries) return entries.error();
  return complete(ports, std::move(state), *std::move(entries), {});
}

}  // namespace benchwarden::workshop
