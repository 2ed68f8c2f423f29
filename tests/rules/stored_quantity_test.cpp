// What a case file cannot show: that the entry since which a quantity is stored is found in books
// of any course, by playing them from the beginning.

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <optional>
#include <random>

#include "rules/rule_book.h"
#include "rules/rule_pack.h"
#include "tallies/state_builder.h"

namespace benchwarden::rules {
namespace {

using tallies::BookUnderTest;
using tallies::hour;

constexpr std::int64_t kLimitMl = 5'000;

base::Result<RulePack, base::FileFaults> limit_of_the_site() {
  return read_pack(
      "pack = \"local\"\ntitle = \"Local\"\nedition = \"2026-11-25\"\nremarks = \"None.\"\n"
      "[[rules]]\nid = \"own.rule\"\nkind = \"stored-quantity\"\ncitation = \"ours\"\n"
      "edition = \"2026\"\nconfidence = \"text-seen\"\nsentence = \"As agreed.\"\n"
      "settings = { limit_is = \"at-most\", weighs = \"over\", per = \"site\" }\n"
      "figures = { limit = { value = \"5\", unit = \"l\" } }\n",
      "local.toml");
}

struct Since {
  base::Instant at;
  std::uint64_t seq = 0;
  friend bool operator==(const Since&, const Since&) = default;
};

/// Every level of both drums, in the order in which they came to be.
std::optional<Since> since_by_playing(const BookUnderTest& book, base::Instant now) {
  std::map<std::tuple<base::Instant, std::uint64_t, int>, std::int64_t> steps;
  const std::array<const char*, 2> drums{"w1", "w2"};
  for (int drum = 0; drum < 2; ++drum) {
    for (const tallies::Event& event : book.at(drums.at(static_cast<std::size_t>(drum))).events()) {
      if (event.at <= now)
        steps[{event.at, event.seq, drum}] = std::max<std::int64_t>(0, event.level);
    }
  }
  std::array<std::int64_t, 2> held{};
  std::optional<Since> since;
  for (const auto& [step, level] : steps) {
    const auto& [at, seq, drum] = step;
    held.at(static_cast<std::size_t>(drum)) = level;
    if (held[0] + held[1] <= kLimitMl * tallies::kMl) {
      since.reset();
    } else if (!since) {
      since = Since{at, seq};
    }
  }
  return since;
}

BookUnderTest random_drums(std::mt19937_64& random) {
  BookUnderTest book(tallies::usual_register());
  const auto pick = [&](std::uint64_t below) {
    return static_cast<std::int64_t>(random() % below);
  };
  for (int i = 0; i < 60; ++i) {
    const std::string drum = pick(2) == 0 ? "w1" : "w2";
    const std::string other = drum == "w1" ? "w2" : "w1";
    const base::Instant at = hour(static_cast<int>(pick(200)));
    const auto amount = tallies::ml(pick(1'500));
    const auto what = pick(6);
    if (what == 0) {
      book.enter(at, {tallies::takes("k", {{drum, amount, pick(2) == 0}})});
    } else if (what == 1) {
      book.enter(at, {tallies::moves(drum, other, amount)});
    } else {
      book.enter(at, {tallies::adds(drum, amount)});
    }
  }
  return book;
}

TEST(StoredQuantity, StandsSinceTheEntryThatPlayingTheBookFinds) {
  const auto pack = limit_of_the_site();
  ASSERT_TRUE(pack.ok()) << base::format_faults(pack.error());
  const RuleBook rules = RuleBook::stacked({&*pack});
  int beyond = 0;
  int within = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    std::mt19937_64 random(seed);
    const BookUnderTest book = random_drums(random);
    for (int hours = 3; hours < 210; hours += 9) {
      SCOPED_TRACE("seed " + std::to_string(seed) + ", hour " + std::to_string(hours));
      const Scene scene(book.state(), hour(hours), *base::Zone::find("UTC"));
      const auto said = judge(rules, scene).findings;
      const auto since = since_by_playing(book, hour(hours));
      ASSERT_EQ(said.size(), since ? 1U : 0U);
      (since ? beyond : within) += 1;
      if (since) {
        EXPECT_EQ((Since{said[0].since, said[0].entries.at(0)}), *since);
      }
    }
  }
  EXPECT_GT(beyond, 50);
  EXPECT_GT(within, 50);
}

}  // namespace
}  // namespace benchwarden::rules
