#include <algorithm>
#include <map>
#include <memory>

#include "reports/mass_figure.h"
#include "reports/number_text.h"
#include "reports/waste_month_parts.h"

namespace benchwarden::reports {
namespace {

using tallies::CollectionState;

bool in_month(base::Instant at, const Month& month) { return at >= month.from && at < month.until; }

using MassByContainer = std::map<std::string, std::int64_t, std::less<>>;

/// A collection with its masses summed once, however many of its loads are told.
struct Told {
  std::string id;
  CollectionState collection;
  MassByContainer stated;
  MassByContainer weighed;
};

MassByContainer masses_of(const std::vector<entries::TakenLoad>& loads) {
  MassByContainer masses;
  for (const entries::TakenLoad& load : loads) {
    if (load.amount.mass) masses[load.container] += load.amount.mass->count();
  }
  return masses;
}

/// Entry number -> the collection it speaks of.
std::map<std::uint64_t, std::shared_ptr<const Told>> collections_by_seq(
    const tallies::State& state) {
  std::map<std::uint64_t, std::shared_ptr<const Told>> by_seq;
  for (const auto& [id, collection] : state.collections()) {
    const auto told = std::make_shared<const Told>(
        Told{id, collection, masses_of(collection.loads), masses_of(collection.weighed)});
    for (const std::uint64_t seq : collection.seqs) by_seq.emplace(seq, told);
  }
  return by_seq;
}

std::string name_of(const tallies::State& state, std::string_view thing_class,
                    std::string_view id) {
  const tallies::Thing* thing = state.thing(thing_class, id);
  return thing == nullptr ? std::string() : std::string(tallies::word(thing->attributes, "name"));
}

std::optional<std::int64_t> mass_in(const MassByContainer& masses, const std::string& container) {
  const auto found = masses.find(container);
  return found == masses.end() ? std::nullopt : std::optional(found->second);
}

void tell_collection(CollectedFigures& figures, const tallies::State& state, const Told& told,
                     const Month& month) {
  const CollectionState& collection = told.collection;
  figures.collection = told.id;
  figures.document_number = collection.document_number;
  figures.carrier = collection.carrier;
  figures.carrier_name = name_of(state, "carrier", collection.carrier);
  if (figures.stream.counted_by == tallies::CountedBy::kVolume) {
    figures.stated_mass = mass_in(told.stated, figures.container);
  }
  figures.weighed_mass = mass_in(told.weighed, figures.container);
  if (collection.document_returned_at && *collection.document_returned_at <= month.as_of) {
    figures.document_returned = month.zone.local(*collection.document_returned_at);
  }
}

CollectedFigures collected_event(const tallies::State& state, const std::string& container,
                                 const tallies::Event& event, const Month& month) {
  CollectedFigures figures;
  figures.taken_at = month.zone.local(event.at);
  figures.seq = event.seq;
  figures.container = container;
  figures.container_name = name_of(state, "container", container);
  figures.stream = tallies::stream_of_container(state, container).value_or(tallies::StreamFacts{});
  figures.amount = event.amount;
  figures.mass = stated_mass(figures.stream, event.amount);
  return figures;
}

bool is_open(const CollectionState& collection, const Month& month) {
  return collection.taken_at && *collection.taken_at < month.from &&
         (!collection.document_returned_at || *collection.document_returned_at > month.as_of);
}

}  // namespace

std::vector<CollectedFigures> collected_in(const tallies::State& state, const Month& month) {
  const auto by_seq = collections_by_seq(state);
  std::vector<CollectedFigures> all;
  for (const auto& [container, thing] : state.things("container")) {
    for (const tallies::Event& event : state.timeline(container).events()) {
      const bool counts = event.kind == tallies::EventKind::kTaken && event.acts;
      if (!counts || !in_month(event.at, month)) continue;
      CollectedFigures figures = collected_event(state, container, event, month);
      const auto collection = by_seq.find(event.seq);
      if (collection != by_seq.end()) tell_collection(figures, state, *collection->second, month);
      all.push_back(std::move(figures));
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) {
    return std::pair(a.taken_at.instant, a.seq) < std::pair(b.taken_at.instant, b.seq);
  });
  return all;
}

std::vector<OpenDocument> open_documents_of(const tallies::State& state, const Month& month) {
  std::vector<OpenDocument> open;
  for (const auto& [id, collection] : state.collections()) {
    if (!is_open(collection, month)) continue;
    open.push_back({id, collection.document_number, month.zone.local(*collection.taken_at)});
  }
  std::stable_sort(open.begin(), open.end(), [](const OpenDocument& a, const OpenDocument& b) {
    return a.taken_at.instant < b.taken_at.instant;
  });
  return open;
}

}  // namespace benchwarden::reports
