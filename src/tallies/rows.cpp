#include "tallies/rows.h"

#include <algorithm>
#include <cassert>
#include <limits>
#include <utility>
#include <variant>

namespace benchwarden::tallies {
namespace {

std::int64_t cut(std::int64_t amount) { return std::clamp(amount, -kAmountMax, kAmountMax); }

using Density = std::optional<quantities::GramsPerCubicMetre>;

/// None when the entry gave no amount that can be counted so.
std::optional<std::int64_t> counted(const entries::Amount& amount, CountedBy by,
                                    const Density& density) {
  if (by == CountedBy::kVolume) {
    if (amount.volume) return cut(amount.volume->count());
    if (amount.mass && density) {
      return exchanged(amount.mass->count(), {CountedBy::kMass, by, density});
    }
    return std::nullopt;
  }
  if (amount.mass) return cut(amount.mass->count());
  if (amount.volume && density) {
    return exchanged(amount.volume->count(), {CountedBy::kVolume, by, density});
  }
  return std::nullopt;
}

/// Collects the rows of one entry; one overload for each effect.
class RowMaker {
 public:
  RowMaker(base::Instant at, std::uint64_t seq, const Register& under_care)
      : at_(at), seq_(seq), under_care_(under_care) {}

  void operator()(const entries::Adds& adds) {
    const ContainerFacts facts = container_facts(under_care_, adds.container);
    const auto amount = counted(adds.amount, facts.counted_by, facts.density);
    Row& row = add(adds.container, EventKind::kAdded, amount.value_or(0));
    row.event.arises = facts.counts_waste;
  }

  void operator()(const entries::Moves& moves) {
    if (moves.from == moves.to) return;
    const ContainerFacts from = container_facts(under_care_, moves.from);
    const ContainerFacts to = container_facts(under_care_, moves.to);
    const Density& density = from.density ? from.density : to.density;
    const bool whole = moves.amount == entries::Amount{};
    const auto amount_of = [&](CountedBy by) {
      return counted(moves.amount, by, density).value_or(0);
    };

    Row& out = add(moves.from, EventKind::kMovedOut, amount_of(from.counted_by));
    out.event.whole = whole;
    out.other_end = moves.to;
    if (whole) out.exchange = {from.counted_by, to.counted_by, density};
    const std::uint16_t part = out.event.part;
    Row& in = add(moves.to, EventKind::kMovedIn, amount_of(to.counted_by));
    in.event.part = part;
    in.other_end = moves.from;
    in.event.whole = whole;
    in.event.arises = to.counts_waste && !from.counts_waste;
    // Clears what a log below zero would leave behind, and restarts the storage clock.
    if (whole) add(moves.from, EventKind::kEmptied, 0);
  }

  void operator()(const entries::Takes& takes) {
    if (takes.stage != entries::CollectionStage::kTaken) return;
    for (const entries::TakenLoad& load : takes.loads) {
      const ContainerFacts facts = container_facts(under_care_, load.container);
      const auto amount = counted(load.amount, facts.counted_by, facts.density);
      Row& row = add(load.container, EventKind::kTaken, amount.value_or(0));
      row.event.whole = load.emptied && !amount;
      if (load.emptied) add(load.container, EventKind::kEmptied, 0);
    }
  }

  void operator()(const entries::Reads& reads) {
    const ContainerFacts facts = container_facts(under_care_, reads.container);
    const auto amount = counted(reads.amount, facts.counted_by, facts.density);
    // A reading that cannot be compared with the log is no reading of it.
    if (amount) add(reads.container, EventKind::kRead, *amount);
  }

  void operator()(const entries::Handles& handles) {
    switch (handles.act) {
      case entries::ContainerAct::kPlaced:
        add(handles.container, EventKind::kPlaced, 0);
        break;
      case entries::ContainerAct::kSealed:
        add(handles.container, EventKind::kSealed, 0);
        break;
      case entries::ContainerAct::kEmptied:
        add(handles.container, EventKind::kEmptied, 0);
        break;
      case entries::ContainerAct::kSwapped:
        add(handles.container, EventKind::kEmptied, 0);
        add(handles.container, EventKind::kPlaced, 0);
        break;
    }
  }

  void operator()(const entries::Checks&) {}
  void operator()(const entries::Changes&) {}
  void operator()(const entries::Notes&) {}
  void operator()(const entries::Confirms&) {}

  std::vector<Row> take() { return std::move(rows_); }

 private:
  Row& add(std::string_view container, EventKind kind, std::int64_t amount) {
    assert(rows_.size() < std::numeric_limits<std::uint16_t>::max());
    Row row;
    row.container = container;
    row.event.at = at_;
    row.event.seq = static_cast<std::uint32_t>(seq_);
    row.event.kind = kind;
    row.event.amount = amount;
    row.event.original = amount;
    row.event.part = static_cast<std::uint16_t>(rows_.size());
    return rows_.emplace_back(row);
  }

  base::Instant at_;
  std::uint64_t seq_;
  const Register& under_care_;
  std::vector<Row> rows_;
};

}  // namespace

std::int64_t exchanged(std::int64_t amount, const Exchange& exchange) {
  amount = cut(amount);
  if (exchange.from == exchange.to) return amount;
  if (!exchange.density) return 0;
  if (exchange.to == CountedBy::kMass) {
    return cut(mass_of(quantities::Microlitres(amount), *exchange.density).count());
  }
  return cut(volume_of(quantities::Milligrams(amount), *exchange.density).count());
}

std::vector<Row> rows_of(const entries::Effects& effects, base::Instant at, std::uint64_t seq,
                         const Register& under_care) {
  RowMaker maker(at, seq, under_care);
  for (const entries::Effect& effect : effects) std::visit(maker, effect);
  return maker.take();
}

}  // namespace benchwarden::tallies
