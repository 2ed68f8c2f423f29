#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "reports/mass_figure.h"
#include "reports/number_text.h"
#include "reports/waste_month_parts.h"

namespace benchwarden::reports {
namespace {

using entries::CollectionStage;
using entries::TakenLoad;
using tallies::CollectionStages;
using tallies::CollectionTold;

/// A load that was taken away: the entry that took it, and the collection it belongs to.
struct Taken {
  const CollectionStages* stages = nullptr;
  const CollectionTold* told = nullptr;
  const TakenLoad* load = nullptr;
};

/// By the number of the entry and the container.
using TakenBySeq = std::map<std::pair<std::uint64_t, std::string_view>, Taken>;

TakenBySeq taken_by_seq(const tallies::Collections::ById& collections) {
  TakenBySeq taken;
  for (const auto& [id, stages] : collections) {
    for (const CollectionTold& told : stages) {
      if (told.takes.stage != CollectionStage::kTaken) continue;
      for (const TakenLoad& load : told.takes.loads) {
        taken.emplace(std::pair(told.seq, std::string_view(load.container)),
                      Taken{&stages, &told, &load});
      }
    }
  }
  return taken;
}

const TakenLoad* find_load(const CollectionTold& told, CollectionStage stage,
                           std::string_view container) {
  if (told.takes.stage != stage) return nullptr;
  for (const TakenLoad& load : told.takes.loads) {
    if (load.container == container) return &load;
  }
  return nullptr;
}

/// A weighing belongs to a container of the collection. It stands beside the first load of it, so
/// that it is told once.
std::optional<std::int64_t> weighed_mass(const Taken& taken) {
  for (const CollectionTold& told : *taken.stages) {
    if (find_load(told, CollectionStage::kTaken, taken.load->container) == nullptr) continue;
    if (told.seq != taken.told->seq) return std::nullopt;
    break;
  }
  for (const CollectionTold& told : *taken.stages) {
    const TakenLoad* load = find_load(told, CollectionStage::kWeighed, taken.load->container);
    if (load != nullptr && load->amount.mass) return load->amount.mass->count();
  }
  return std::nullopt;
}

/// When the document under which something was taken came back, the last time it was told.
std::optional<base::Instant> returned_at(const CollectionStages& stages,
                                         const std::string& document_number, const Month& month) {
  std::optional<base::Instant> at;
  for (const CollectionTold& told : stages) {
    const bool is_it = told.takes.stage == CollectionStage::kDocumentReturned &&
                       told.takes.document_number == document_number && told.at <= month.as_of;
    if (is_it) at = told.at;
  }
  return at;
}

std::string name_of(const tallies::State& state, std::string_view thing_class,
                    std::string_view id) {
  const tallies::Thing* thing = state.thing(thing_class, id);
  return thing == nullptr ? std::string() : std::string(tallies::word(thing->attributes, "name"));
}

void tell_collection(CollectedFigures& figures, const tallies::State& state, const Taken& taken,
                     const Month& month) {
  const entries::Takes& takes = taken.told->takes;
  figures.collection = takes.collection;
  figures.document_number = takes.document_number;
  figures.carrier = takes.carrier;
  figures.carrier_name = name_of(state, "carrier", takes.carrier);
  const auto& stated = taken.load->amount.mass;
  if (stated && figures.stream.counted_by == tallies::CountedBy::kVolume) {
    figures.stated_mass = stated->count();
  }
  figures.weighed_mass = weighed_mass(taken);
  if (const auto returned = returned_at(*taken.stages, takes.document_number, month)) {
    figures.document_returned = month.zone.local(*returned);
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

/// The documents of one collection that went with loads of earlier months and are not back.
void tell_open(std::vector<OpenDocument>& open, const std::string& id,
               const CollectionStages& stages, const Month& month) {
  std::set<std::string_view> known;
  for (const CollectionTold& told : stages) {
    const std::string& number = told.takes.document_number;
    const bool taken = told.takes.stage == CollectionStage::kTaken && told.at < month.from;
    if (!taken || !known.insert(number).second || returned_at(stages, number, month)) continue;
    open.push_back({id, number, month.zone.local(told.at)});
  }
}

}  // namespace

std::vector<CollectedFigures> collected_in(const tallies::State& state, const Month& month) {
  const auto collections = state.collections();
  const TakenBySeq taken = taken_by_seq(collections);
  std::vector<CollectedFigures> all;
  for (const auto& [container, thing] : state.things("container")) {
    const tallies::Timeline& timeline = state.timeline(container);
    const std::size_t last = timeline.count_before(month.until);
    for (std::size_t i = timeline.count_before(month.from); i < last; ++i) {
      const tallies::Event& event = timeline.events()[i];
      if (event.kind != tallies::EventKind::kTaken || !event.acts) continue;
      CollectedFigures figures = collected_event(state, container, event, month);
      const auto load = taken.find({event.seq, container});
      if (load != taken.end()) tell_collection(figures, state, load->second, month);
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
  for (const auto& [id, stages] : state.collections()) tell_open(open, id, stages, month);
  std::stable_sort(open.begin(), open.end(), [](const OpenDocument& a, const OpenDocument& b) {
    return a.taken_at.instant < b.taken_at.instant;
  });
  return open;
}

}  // namespace benchwarden::reports
