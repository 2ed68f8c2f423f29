#include "tallies/plain_model.h"

#include <algorithm>

namespace benchwarden::tallies {
namespace {

constexpr std::int64_t kOilDensity = 900;  // kg/m³, mg per mL

bool by_mass(const std::string& container) { return container == "drum" || container == "bin"; }
bool counts_waste(const std::string& container) { return container != "can" && container != "bin"; }
bool is_oil(const std::string& container) {
  return container == "w1" || container == "w2" || container == "can";
}

std::int64_t half_away(std::int64_t a, std::int64_t b) {
  return a < 0 ? -((-a + b / 2) / b) : (a + b / 2) / b;
}
std::int64_t to_mass(std::int64_t microlitres) {
  return half_away(microlitres * kOilDensity, 1'000);
}
std::int64_t to_volume(std::int64_t milligrams) {
  return half_away(milligrams * 1'000, kOilDensity);
}

std::optional<std::int64_t> counted(const entries::Amount& amount, bool mass, bool oil) {
  if (mass && amount.mass) return amount.mass->count();
  if (!mass && amount.volume) return amount.volume->count();
  if (mass && amount.volume && oil) return to_mass(amount.volume->count());
  if (!mass && amount.mass && oil) return to_volume(amount.mass->count());
  return std::nullopt;
}

class Play {
 public:
  void at(base::Instant at, std::uint64_t seq) {
    at_ = at;
    seq_ = seq;
  }
  void operator()(const entries::Adds& adds) {
    const auto& id = adds.container;
    put(id, counted(adds.amount, by_mass(id), is_oil(id)).value_or(0), counts_waste(id));
  }
  void operator()(const entries::Moves& moves) {
    if (moves.from == moves.to) return;
    const bool oil = is_oil(moves.from) || is_oil(moves.to);
    std::int64_t out = 0;
    std::int64_t in = 0;
    if (moves.amount == entries::Amount{}) {
      out = std::max<std::int64_t>(all[moves.from].level, 0);
      in = out;
      if (by_mass(moves.to) && !by_mass(moves.from)) in = oil ? to_mass(out) : 0;
      if (!by_mass(moves.to) && by_mass(moves.from)) in = oil ? to_volume(out) : 0;
      empty(moves.from);
    } else {
      out = counted(moves.amount, by_mass(moves.from), oil).value_or(0);
      in = counted(moves.amount, by_mass(moves.to), oil).value_or(0);
      all[moves.from].level -= out;
    }
    put(moves.to, in, counts_waste(moves.to) && !counts_waste(moves.from));
  }
  void operator()(const entries::Takes& takes) {
    if (takes.stage != entries::CollectionStage::kTaken) return;
    for (const auto& load : takes.loads) {
      const auto& id = load.container;
      all[id].level -= counted(load.amount, by_mass(id), is_oil(id)).value_or(0);
      if (load.emptied) empty(id);
    }
  }
  void operator()(const entries::Reads& reads) {
    const auto& id = reads.container;
    const auto amount = counted(reads.amount, by_mass(id), is_oil(id));
    if (amount) all[id].reading = Reading{at_, seq_, *amount, all[id].level};
  }
  void operator()(const entries::Handles& handles) {
    using entries::ContainerAct;
    PlainContainer& container = all[handles.container];
    container.sealed = handles.act == ContainerAct::kSealed;
    if (handles.act == ContainerAct::kEmptied || handles.act == ContainerAct::kSwapped) {
      empty(handles.container);
    }
  }
  void operator()(const entries::Checks&) {}
  void operator()(const entries::Changes&) {}
  void operator()(const entries::Notes&) {}
  void operator()(const entries::Confirms&) {}

  PlainContainers all;

 private:
  void put(const std::string& id, std::int64_t amount, bool arises) {
    PlainContainer& container = all[id];
    container.level += amount;
    if (amount > 0 && !container.oldest) container.oldest = at_;
    if (arises) container.arisen += amount;
  }
  void empty(const std::string& id) {
    all[id].level = 0;
    all[id].oldest.reset();
    all[id].sealed = false;
  }
  base::Instant at_;
  std::uint64_t seq_ = 0;
};

}  // namespace

PlainContainers play(std::vector<Posting> postings, base::Instant until) {
  std::sort(postings.begin(), postings.end(), [](const Posting& a, const Posting& b) {
    return a.occurred_at != b.occurred_at ? a.occurred_at < b.occurred_at : a.seq < b.seq;
  });
  Play play;
  for (const Posting& posting : postings) {
    if (posting.occurred_at >= until) break;
    play.at(posting.occurred_at, posting.seq);
    for (const auto& effect : posting.effects) std::visit(play, effect);
  }
  return play.all;
}

}  // namespace benchwarden::tallies
