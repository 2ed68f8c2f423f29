#include "tallies/collections.h"

#include <algorithm>
#include <utility>

#include "tallies/bytes.h"

namespace benchwarden::tallies {
namespace {

using entries::CollectionStage;

void append(std::vector<entries::TakenLoad>& loads, const std::vector<entries::TakenLoad>& more) {
  loads.insert(loads.end(), more.begin(), more.end());
}

void take_in(CollectionState& state, base::Instant at, const entries::Takes& takes) {
  if (!takes.carrier.empty()) state.carrier = takes.carrier;
  if (!takes.document_number.empty()) state.document_number = takes.document_number;
  switch (takes.stage) {
    case CollectionStage::kPlanned:
      break;
    case CollectionStage::kTaken:
      if (!state.taken_at) state.taken_at = at;
      append(state.loads, takes.loads);
      break;
    case CollectionStage::kDocumentReturned:
      state.document_returned_at = at;
      break;
    case CollectionStage::kWeighed:
      append(state.weighed, takes.loads);
      break;
  }
}

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

void Collections::make_again(std::string_view collection) {
  const auto stages = stages_.find(collection);
  if (stages == stages_.end()) {
    states_.erase(std::string(collection));
    return;
  }
  CollectionState state;
  for (const Stage& stage : stages->second) {
    take_in(state, stage.at, stage.takes);
    state.seqs.push_back(stage.seq);
  }
  states_.insert_or_assign(std::string(collection), std::move(state));
}

void Collections::post(base::Instant at, std::uint64_t seq, const entries::Takes& takes) {
  std::vector<Stage>& stages = stages_[takes.collection];
  const auto later = std::find_if(stages.begin(), stages.end(), [&](const Stage& stage) {
    return stage.at != at ? stage.at > at : stage.seq > seq;
  });
  stages.insert(later, Stage{at, seq, takes});
  make_again(takes.collection);
}

void Collections::withdraw(std::uint64_t seq, std::string_view collection) {
  const auto found = stages_.find(collection);
  if (found == stages_.end()) return;
  std::erase_if(found->second, [&](const Stage& stage) { return stage.seq == seq; });
  if (found->second.empty()) stages_.erase(found);
  make_again(collection);
}

void Collections::write_stage(ByteWriter& writer, const Stage& stage) {
  writer.signed_number(stage.at.ms);
  writer.number(stage.seq);
  writer.number(static_cast<std::uint64_t>(stage.takes.stage));
  writer.text(stage.takes.carrier);
  writer.text(stage.takes.document_number);
  writer.number(stage.takes.loads.size());
  for (const entries::TakenLoad& load : stage.takes.loads) {
    writer.text(load.container);
    write_amount(writer, load.amount.volume);
    write_amount(writer, load.amount.mass);
    writer.number(load.emptied ? 1 : 0);
  }
}

Collections::Stage Collections::read_stage(ByteReader& reader) {
  Stage stage;
  stage.at.ms = reader.signed_number();
  stage.seq = reader.number();
  stage.takes.stage = static_cast<CollectionStage>(
      reader.number_up_to(static_cast<std::uint64_t>(CollectionStage::kWeighed)));
  stage.takes.carrier = reader.text();
  stage.takes.document_number = reader.text();
  const std::size_t loads = reader.count();
  for (std::size_t i = 0; i < loads && !reader.failed(); ++i) {
    entries::TakenLoad load;
    load.container = reader.text();
    load.amount.volume = read_amount<quantities::Microlitres>(reader);
    load.amount.mass = read_amount<quantities::Milligrams>(reader);
    load.emptied = reader.number_up_to(1) == 1;
    stage.takes.loads.push_back(std::move(load));
  }
  return stage;
}

void Collections::write(ByteWriter& writer) const {
  writer.number(stages_.size());
  for (const auto& [collection, stages] : stages_) {
    writer.text(collection);
    writer.number(stages.size());
    for (const Stage& stage : stages) write_stage(writer, stage);
  }
}

Collections Collections::read(ByteReader& reader) {
  Collections result;
  const std::size_t collections = reader.count();
  for (std::size_t i = 0; i < collections && !reader.failed(); ++i) {
    const std::string collection = reader.text();
    const bool ascends = result.stages_.empty() || result.stages_.rbegin()->first < collection;
    std::vector<Stage>& stages = result.stages_[collection];
    const std::size_t count = reader.count();
    if (!ascends || count == 0) reader.fail();
    for (std::size_t j = 0; j < count && !reader.failed(); ++j) {
      Stage stage = read_stage(reader);
      stage.takes.collection = collection;
      const bool in_order = stages.empty() || stages.back().at < stage.at ||
                            (stages.back().at == stage.at && stages.back().seq <= stage.seq);
      if (!in_order) reader.fail();
      stages.push_back(std::move(stage));
    }
    result.make_again(collection);
  }
  return result;
}

}  // namespace benchwarden::tallies
