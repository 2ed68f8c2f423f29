#include <algorithm>
#include <set>
#include <utility>

#include "base/base64.h"
#include "base/sha256.h"
#include "book/merkle.h"
#include "entries/leaf.h"
#include "workshop/attachments.h"
#include "workshop/report.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

constexpr std::size_t kUnconfirmedMax = 500;

/// Both null where the entry came with a PIN, or nobody has answered for it.
void add_answer(const Ports& ports, std::uint64_t seq, base::JsonObject& json) {
  base::Json by;
  base::Json authorship;
  const auto state = ports.live.view();
  if (const tallies::Answer* answer = state->claims().answer_for(seq)) {
    by = answer->by;
    authorship = answer->authorship == entries::Authorship::kMine ? "mine" : "not-mine";
  }
  json.emplace_back("confirmed_by", std::move(by));
  json.emplace_back("authorship", std::move(authorship));
}

base::Result<base::Json> plain_entry(const Ports& ports, const entries::Entry& entry) {
  const auto hash = ports.book.leaf_hash(entry.seq);
  if (!hash) return hash.error();
  base::Json json = entries::entry_json(entry);
  json.object()->emplace_back("leaf_hash", base::to_hex(*hash));
  json.object()->emplace_back("person_name", ports.names.display_name(entry.signature.person));
  add_answer(ports, entry.seq, *json.object());
  auto attached = attached_json(ports, entry);
  if (!attached) return attached;
  json.object()->emplace_back("attached", *std::move(attached));
  return json;
}

book::Selection selection_of(const Ports& ports, const EntryQuery& query) {
  const base::Zone zone = zone_of(*ports.live.view());
  book::Selection selection;
  selection.kind = query.kind;
  selection.subject = query.subject;
  if (query.from) selection.from = zone.start_of(*query.from);
  // Nothing is dated later than the last day the calendar knows, so that day needs no end.
  if (query.to && *query.to < base::kLastDay) {
    selection.until = zone.start_of(base::add_days(*query.to, 1));
  }
  selection.after_seq = query.after_seq;
  return selection;
}

bool is_shown(const EntryQuery& query, const entries::Entry& entry) {
  if (query.shows && !query.shows(entry.content.kind)) return false;
  return !query.person || entry.signature.person == *query.person;
}

/// One more than the page holds, where the book has as many: that one tells of a next page, and
/// what is not shown tells nothing.
base::Result<std::vector<entries::Entry>> shown_entries(const Ports& ports,
                                                        const EntryQuery& query) {
  constexpr std::size_t kReadAtOnce = 500;
  const bool leaves_out = query.shows || query.person;
  book::Selection selection = selection_of(ports, query);
  selection.limit = leaves_out ? std::max(kReadAtOnce, query.limit + 1) : query.limit + 1;
  std::vector<entries::Entry> shown;
  while (true) {
    auto read = ports.book.select(selection);
    if (!read) return read.error();
    for (entries::Entry& entry : *read) {
      selection.after_seq = entry.seq;
      if (is_shown(query, entry)) shown.push_back(std::move(entry));
      if (shown.size() > query.limit) return shown;
    }
    if (read->size() < selection.limit) return shown;
  }
}

}  // namespace

base::Result<base::Json> entry_with_corrections(const Ports& ports, const entries::Entry& entry) {
  auto json = plain_entry(ports, entry);
  if (!json) return json;
  const auto corrections = ports.book.corrections_of(entry.content.id);
  if (!corrections) return corrections.error();
  base::JsonArray list;
  for (const entries::Entry& correction : *corrections) {
    auto corrected = plain_entry(ports, correction);
    if (!corrected) return corrected;
    list.push_back(*std::move(corrected));
  }
  json->object()->emplace_back("corrections", std::move(list));
  return json;
}

base::Result<EntryPage> list_entries(const Ports& ports, const EntryQuery& query) {
  auto shown = shown_entries(ports, query);
  if (!shown) return shown.error();
  EntryPage page;
  if (shown->size() > query.limit) {
    shown->pop_back();
    page.next_after = shown->back().seq;
  }
  for (const entries::Entry& entry : *shown) {
    auto json = entry_with_corrections(ports, entry);
    if (!json) return json.error();
    page.entries.push_back(*std::move(json));
  }
  return page;
}

base::Result<base::JsonArray> list_unconfirmed(const Ports& ports, const Actor& actor) {
  const bool everybodys = actor.role == "manager" || actor.role == "inspector";
  const std::set<std::uint64_t> open = ports.live.view()->claims().open();
  base::JsonArray list;
  for (const std::uint64_t seq : open) {
    if (list.size() == kUnconfirmedMax) break;
    const auto entry = ports.book.entry(seq);
    if (!entry) return entry.error();
    if (!everybodys && entry->signature.person != actor.person) continue;
    auto json = entry_with_corrections(ports, *entry);
    if (!json) return json.error();
    list.push_back(*std::move(json));
  }
  return list;
}

base::Result<EntryNature> nature_of(const Ports& ports, const base::Uuid& id) {
  const auto entry = ports.book.entry(id);
  if (!entry) return entry.error();
  if (entry->content.corrects) return nature_of(ports, *entry->content.corrects);
  EntryNature nature{entry->content.kind, std::nullopt};
  if (nature.kind == kIssuedKind) {
    const auto* report = entries::find_field_as<entries::Text>(entry->content.fields, "report");
    if (report != nullptr) nature.report = report->text;
  }
  return nature;
}

base::Result<base::Json> show_entry(const Ports& ports, const base::Uuid& id) {
  const auto entry = ports.book.entry(id);
  if (!entry) return entry.error();
  return entry_with_corrections(ports, *entry);
}

}  // namespace benchwarden::workshop
