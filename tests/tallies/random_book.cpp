#include "tallies/random_book.h"

#include <array>
#include <utility>

#include "tallies/state_builder.h"

namespace benchwarden::tallies {
namespace {

constexpr int kHours = 2'000;

class Maker {
 public:
  explicit Maker(std::uint64_t seed) : random_(seed) {}

  RandomBook make(int entries, Amending amending) {
    add(base::Instant{-1}, usual_register());
    add(base::Instant{-1}, {enters("tool", "t1", {}), enters("tool", "t2", {})});
    while (static_cast<int>(book_.steps.size()) < entries) {
      if (amending == Amending::kMany && pick(random_, 4) == 0 && book_.right_at_once.size() > 3) {
        amend();
      } else {
        add(moment(), some_effects());
      }
    }
    return std::move(book_);
  }

 private:
  /// Mostly a little after the last one, now and then long ago; several at one moment.
  base::Instant moment() {
    if (pick(random_, 6) == 0) return hour(static_cast<int>(pick(random_, kHours)));
    now_ += static_cast<int>(pick(random_, 4));
    return hour(now_ % kHours);
  }

  std::string container() {
    static const std::array<const char*, 6> kIds{"w1", "w2", "m1", "drum", "can", "bin"};
    return kIds.at(pick(random_, kIds.size()));
  }
  entries::Amount amount() {
    entries::Amount made;
    const auto kind = pick(random_, 8);
    const auto count = static_cast<std::int64_t>(pick(random_, 2'000'000));
    if (kind != 0) made.volume = quantities::Microlitres(count);
    if (kind == 0 || kind > 3) made.mass = quantities::Milligrams(count / 2 + 7);
    return made;
  }
  entries::TakenLoad load() {
    return {container(), pick(random_, 4) == 0 ? kAll : amount(), pick(random_, 2) == 0};
  }
  entries::Effect collection() {
    std::vector<entries::TakenLoad> loads;
    for (auto i = pick(random_, 4); i > 0; --i) loads.push_back(load());
    const auto stage = pick(random_, 2) == 0 ? 1 : pick(random_, 5);
    return entries::Takes{"k" + std::to_string(pick(random_, 9)),
                          static_cast<entries::CollectionStage>(stage),
                          pick(random_, 2) == 0 ? "" : "carrier-a", "", std::move(loads)};
  }
  entries::Told told(const std::string& kind) {
    return {kind, {text_field("note", std::to_string(pick(random_, 99)))}};
  }
  std::string tool() { return pick(random_, 2) == 0 ? "t1" : "t2"; }
  entries::Effect some_effect() {
    switch (pick(random_, 12)) {
      case 0:
      case 1:
      case 2:
        return adds(container(), amount());
      case 3:
        return moves(container(), container(), amount());
      case 4:
      case 5:
        return moves(container(), container(), kAll);
      case 6:
        return collection();
      case 7:
        return reads(container(), amount());
      case 8:
        return handles(container(), static_cast<entries::ContainerAct>(pick(random_, 4)));
      case 9:
        return entries::Checks{"tool", tool(), static_cast<entries::Outcome>(pick(random_, 4)),
                               told("tool-inspection")};
      case 10:
        return entries::Changes{"tool",
                                tool(),
                                entries::RegisterAct::kChanged,
                                {text_field("name", std::to_string(pick(random_, 99)))}};
      default:
        return pick(random_, 2) == 0 ? entries::Notes{"", "", told("walk-round")}
                                     : entries::Notes{"tool", tool(), told("gas-use")};
    }
  }
  entries::Effects some_effects() {
    entries::Effects effects;
    for (auto i = 1 + pick(random_, 10) / 8; i > 0; --i) effects.push_back(some_effect());
    return effects;
  }

  std::uint64_t next_seq() const { return book_.steps.size() + 1; }

  void add(base::Instant at, entries::Effects effects) {
    const Posting posting{next_seq(), at, hour(static_cast<int>(next_seq())), pick(random_, 9) != 0,
                          std::move(effects)};
    book_.steps.emplace_back(posting);
    book_.right_at_once.push_back(posting);
  }

  void amend() {
    // Any entry but the two that set up the register; half of the time one of the last.
    const auto known = book_.right_at_once.size() - 2;
    const auto back = pick(random_, 2) == 0 ? pick(random_, std::min<std::size_t>(known, 5))
                                            : pick(random_, known);
    Posting& target = book_.right_at_once.at(2 + known - 1 - back);
    Amendment amendment;
    amendment.seq = next_seq();
    amendment.recorded_at = hour(static_cast<int>(next_seq()));
    amendment.target_seq = target.seq;
    amendment.target_occurred_at = target.occurred_at;
    amendment.struck = pick(random_, 3) == 0;
    amendment.before = target.effects;
    if (!amendment.struck) {
      amendment.after = pick(random_, 2) == 0 ? some_effects() : slightly_other(target.effects);
    }
    target.effects = amendment.after;
    book_.steps.emplace_back(amendment);
    book_.right_at_once.push_back(
        {amendment.seq, amendment.target_occurred_at, amendment.recorded_at, true, {}});
  }

  entries::Effects slightly_other(entries::Effects effects) {
    for (entries::Effect& effect : effects) {
      if (auto* added = std::get_if<entries::Adds>(&effect)) added->amount = amount();
      if (auto* moved = std::get_if<entries::Moves>(&effect)) moved->to = container();
      if (auto* read = std::get_if<entries::Reads>(&effect)) read->container = container();
      if (auto* taken = std::get_if<entries::Takes>(&effect)) taken->loads.push_back(load());
    }
    return effects;
  }

  std::mt19937_64 random_;
  RandomBook book_;
  int now_ = 0;
};

}  // namespace

RandomBook random_book(std::uint64_t seed, int entries, Amending amending) {
  return Maker(seed).make(entries, amending);
}

void apply(State& state, const Step& step) {
  std::visit([&](const auto& what) { state.apply(what); }, step);
}

State fold(const std::vector<Step>& steps) {
  State state;
  for (const Step& step : steps) apply(state, step);
  return state;
}

State fold(const std::vector<Posting>& postings) {
  State state;
  for (const Posting& posting : postings) state.apply(posting);
  return state;
}

base::Instant random_moment(std::mt19937_64& random) {
  return hour(static_cast<int>(pick(random, kHours + 20)) - 10);
}

std::uint64_t pick(std::mt19937_64& random, std::uint64_t below) { return random() % below; }

}  // namespace benchwarden::tallies
