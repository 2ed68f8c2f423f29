#include "workshop/surroundings.h"

#include "workshop/chain.h"

namespace benchwarden::workshop {

namespace {

std::optional<base::Instant> sealed_since(const tallies::Timeline& timeline) {
  std::optional<base::Instant> since;
  for (const tallies::Event& event : timeline.events()) {
    if (event.acts && event.kind == tallies::EventKind::kSealed) since = event.at;
  }
  return since;
}

std::optional<base::Instant> withdrawn_since(const std::vector<tallies::Check>& checks) {
  std::optional<base::Instant> since;
  for (const tallies::Check& check : checks) {
    if (!check.struck && check.outcome != entries::Outcome::kRecorded) since = check.at;
  }
  return since;
}

}  // namespace

std::optional<forms::Thing> BookSurroundings::thing(std::string_view thing_class,
                                                    std::string_view id) const {
  const auto state = ports_.live.view();
  const tallies::Thing* thing = state->thing(thing_class, id);
  if (thing == nullptr) return std::nullopt;
  forms::Thing answer{thing->retired, thing->in_service, thing->attributes, std::nullopt};
  if (thing->retired) {
    const auto entry = ports_.book.entry(thing->changed_seq);
    if (entry) answer.out_of_use_since = entry->content.occurred_at.instant;
  } else if (!thing->in_service) {
    answer.out_of_use_since = withdrawn_since(state->checks(thing_class, id));
  } else if (thing_class == "container" && state->timeline(id).sealed(base::Instant{INT64_MAX})) {
    answer.in_service = false;
    answer.out_of_use_since = sealed_since(state->timeline(id));
  }
  return answer;
}

std::optional<forms::Surroundings::Target> BookSurroundings::target(const base::Uuid& id) const {
  auto entry = ports_.book.entry(id);
  if (!entry) return std::nullopt;
  const std::uint64_t seq = entry->seq;
  auto chain = chain_of(ports_.book, ports_.definitions.catalog, *std::move(entry), before_seq_);
  if (!chain) return std::nullopt;
  return Target{std::move(chain->effective), chain->struck, is_relied_on(chain->entry, seq)};
}

bool BookSurroundings::is_relied_on(const entries::Entry& entry, std::uint64_t seq) const {
  for (const entries::Effect& effect :
       forms::effects_of(ports_.definitions.catalog, entry.content)) {
    const auto* change = std::get_if<entries::Changes>(&effect);
    if (change == nullptr || change->act != entries::RegisterAct::kAdded) continue;
    book::Selection later;
    later.subject = change->thing_class + "/" + change->thing;
    later.after_seq = seq;
    later.limit = 1;
    const auto found = ports_.book.select(later);
    // A book that cannot be read just now answers on the careful side.
    if (!found || !found->empty()) return true;
  }
  return false;
}

}  // namespace benchwarden::workshop
