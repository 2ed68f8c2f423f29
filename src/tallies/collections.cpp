#include "tallies/collections.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "tallies/bytes.h"

namespace benchwarden::tallies {
namespace {

template <class Amount>
void write_amount(ByteWriter& writer, const std::optional<Amount>& amount) {
  writer.number(amount ? 1 : 0);
  if (amount) writer.signed_number(amount->count());
}

template <class Amount>
std::optional<Amount> read_amount(ByteReader& reader) {
  if (reader.number_up_to(1) == 0) return std::nullopt;
  return Amount(reader.signed_number());
}

}  // namespace

bool was_taken(const CollectionStages& stages) {
  return std::any_of(stages.begin(), stages.end(), [](const CollectionTold& told) {
    return told.takes.stage == entries::CollectionStage::kTaken;
  });
}

const CollectionTold* last_plan(const CollectionStages& stages) {
  const auto plan = std::find_if(stages.rbegin(), stages.rend(), [](const CollectionTold& told) {
    return told.takes.stage == entries::CollectionStage::kPlanned;
  });
  return plan == stages.rend() ? nullptr : &*plan;
}

const CollectionTold* open_plan(const CollectionStages& stages) {
  const CollectionTold* plan = last_plan(stages);
  return plan == nullptr || plan != &stages.back() || was_taken(stages) ? nullptr : plan;
}

CollectionStages Collections::listed(const Stages& stages) {
  CollectionStages list;
  for (const auto& [key, takes] : stages) list.push_back({key.at, key.seq, takes});
  return list;
}

Collections::ById Collections::all() const {
  ById by_id;
  for (const auto& [collection, stages] : stages_) by_id.emplace(collection, listed(stages));
  return by_id;
}

CollectionStages Collections::stages(std::string_view collection) const {
  const auto found = stages_.find(collection);
  return found == stages_.end() ? CollectionStages() : listed(found->second);
}

void Collections::post(base::Instant at, std::uint64_t seq, const entries::Takes& takes) {
  stages_[takes.collection].emplace(Key{at, seq}, takes);
}

void Collections::withdraw(base::Instant at, std::uint64_t seq, std::string_view collection) {
  const auto found = stages_.find(collection);
  if (found == stages_.end()) return;
  found->second.erase(Key{at, seq});
  if (found->second.empty()) stages_.erase(found);
}

void Collections::write_stage(ByteWriter& writer, const Key& key, const entries::Takes& takes) {
  writer.signed_number(key.at.ms);
  writer.number(key.seq);
  writer.number(static_cast<std::uint64_t>(takes.stage));
  writer.text(takes.carrier);
  writer.text(takes.document_number);
  writer.number(takes.loads.size());
  for (const entries::TakenLoad& load : takes.loads) {
    writer.text(load.container);
    write_amount(writer, load.amount.volume);
    write_amount(writer, load.amount.mass);
    writer.number(load.emptied ? 1 : 0);
  }
}

Collections::Stages::value_type Collections::read_stage(ByteReader& reader) {
  Key key;
  key.at.ms = reader.signed_number();
  key.seq = reader.number();
  entries::Takes takes;
  takes.stage = static_cast<entries::CollectionStage>(
      reader.number_up_to(static_cast<std::uint64_t>(entries::CollectionStage::kNotTaken)));
  takes.carrier = reader.text();
  takes.document_number = reader.text();
  const std::size_t loads = reader.count();
  for (std::size_t i = 0; i < loads && !reader.failed(); ++i) {
    entries::TakenLoad load;
    load.container = reader.text();
    load.amount.volume = read_amount<quantities::Microlitres>(reader);
    load.amount.mass = read_amount<quantities::Milligrams>(reader);
    load.emptied = reader.number_up_to(1) == 1;
    takes.loads.push_back(std::move(load));
  }
  return {key, std::move(takes)};
}

void Collections::write(ByteWriter& writer) const {
  writer.number(stages_.size());
  for (const auto& [collection, stages] : stages_) {
    writer.text(collection);
    writer.number(stages.size());
    for (const auto& [key, takes] : stages) write_stage(writer, key, takes);
  }
}

Collections Collections::read(ByteReader& reader) {
  Collections result;
  const std::size_t collections = reader.count();
  for (std::size_t i = 0; i < collections && !reader.failed(); ++i) {
    const std::string collection = reader.text();
    const bool ascends = result.stages_.empty() || result.stages_.rbegin()->first < collection;
    Stages& stages = result.stages_[collection];
    const std::size_t count = reader.count();
    if (!ascends || count == 0) reader.fail();
    for (std::size_t j = 0; j < count && !reader.failed(); ++j) {
      auto [key, takes] = read_stage(reader);
      takes.collection = collection;
      if (!stages.empty() && key < stages.rbegin()->first) reader.fail();
      stages.emplace_hint(stages.end(), key, std::move(takes));
    }
  }
  return result;
}

}  // namespace benchwarden::tallies
