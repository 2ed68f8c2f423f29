// What goes together, and by when: storage clocks of a pack of the test's own, so that the days are
// plain to see.

#include "rules/handover.h"

#include <gtest/gtest.h>

#include "rules/rule_pack.h"
#include "tallies/state_builder.h"

namespace benchwarden::rules {
namespace {

using tallies::adds;
using tallies::at;
using tallies::ml;

/// Waste may stand for 90 days; what is due within 14 goes together, 60 days ahead.
const RulePack& pack() {
  static const auto kPack = read_pack(
      R"(pack = "local"
title = "Local"
edition = "2026-11-25"
remarks = "None."
[[rules]]
id = "own.clock"
kind = "storage-clock"
citation = "ours"
edition = "2026"
confidence = "text-seen"
sentence = "As agreed."
figures = { limit = { value = "90", unit = "d" } }
[[rules]]
id = "own.together"
kind = "handover"
citation = "ours"
edition = "2026"
confidence = "text-seen"
sentence = "As agreed."
figures = { window = { value = "14", unit = "d" }, ahead = { value = "60", unit = "d" } }
)",
      "local.toml");
  return *kPack;
}

/// "2026-12-01: w1 w2" for each handover, then "none: m1".
std::string proposed(const tallies::State& state, const std::string& now,
                     const RuleBook& book = RuleBook::stacked({&pack()})) {
  const Scene scene(state, at(now), *base::Zone::find("UTC"));
  const HandoverProposal proposal = propose_handovers(book, scene, judge(book, scene));
  std::string told;
  for (const Handover& one : proposal.handovers) {
    told += base::format_date(one.day) + ":";
    for (const HandoverLoad& load : one.loads) told += " " + load.level.container;
    told += "\n";
  }
  for (const Undated& one : proposal.undated) told += "none: " + one.level.container + "\n";
  return told;
}

// 90 days after 1 and 15 September are 30 November and 14 December; after 16 September 15 December.
TEST(Handover, PutsTogetherWhatIsDueUpToTheLastDayOfTheWindow) {
  tallies::BookUnderTest book(tallies::usual_register());
  book.enter(at("2026-09-01T10:00:00Z"), {adds("w1", ml(1000))});
  book.enter(at("2026-09-15T10:00:00Z"), {adds("w2", ml(1000))});
  book.enter(at("2026-09-16T10:00:00Z"), {adds("m1", ml(1000))});
  EXPECT_EQ(proposed(book.state(), "2026-11-20T10:00:00Z"), "2026-11-30: w1 w2\n2026-12-15: m1\n");
}

TEST(Handover, IsForTodayWhereTheDayHasPassed) {
  tallies::BookUnderTest book(tallies::usual_register());
  book.enter(at("2026-09-01T10:00:00Z"), {adds("w1", ml(1000))});
  book.enter(at("2026-09-15T10:00:00Z"), {adds("w2", ml(1000))});
  EXPECT_EQ(proposed(book.state(), "2026-12-01T10:00:00Z"), "2026-12-01: w1 w2\n");
}

TEST(Handover, LooksNoFurtherAheadThanTheRuleSays) {
  tallies::BookUnderTest book(tallies::usual_register());
  book.enter(at("2026-09-01T10:00:00Z"), {adds("w1", ml(1000))});
  EXPECT_EQ(proposed(book.state(), "2026-10-01T10:00:00Z"), "2026-11-30: w1\n");
  EXPECT_EQ(proposed(book.state(), "2026-09-30T10:00:00Z"), "");
}

TEST(Handover, LeavesOutWhatHoldsNothingOrCountsNoWaste) {
  tallies::BookUnderTest book(tallies::usual_register());
  book.enter(at("2026-09-01T10:00:00Z"), {adds("can", ml(1000)), adds("w1", ml(1000))});
  book.enter(at("2026-09-02T10:00:00Z"), {tallies::takes("c1", {{"w1", ml(1000), true}})});
  EXPECT_EQ(proposed(book.state(), "2026-11-20T10:00:00Z"), "");
}

TEST(Handover, IsOnAnOpenDay) {
  entries::List days;
  for (const char* day : {"monday", "tuesday", "wednesday", "thursday", "friday"}) {
    days.rows.push_back({{"weekday", entries::Code{day}}});
  }
  entries::Effects effects = tallies::usual_register();
  effects.push_back(tallies::enters("workshop", "site", {{"opening_days", days}}));
  tallies::BookUnderTest book(effects);
  book.enter(at("2026-09-07T10:00:00Z"), {adds("w1", ml(1000))});
  // 90 days later is 6 December, a Sunday.
  EXPECT_EQ(proposed(book.state(), "2026-11-20T10:00:00Z"), "2026-12-04: w1\n");
}

TEST(Handover, ProposesNothingWhereTheRuleIsOff) {
  tallies::BookUnderTest book(tallies::usual_register());
  book.enter(at("2026-09-01T10:00:00Z"), {adds("w1", ml(1000))});
  EXPECT_EQ(proposed(book.state(), "2026-11-20T10:00:00Z", RuleBook::stacked({})), "");
}

TEST(Handover, NamesWhatHasNoDay) {
  tallies::BookUnderTest book(tallies::usual_register());
  book.enter(at("2026-09-01T10:00:00Z"), {adds("w1", ml(1000))});
  RulePack alone = pack();
  alone.rules.erase(alone.rules.begin());
  EXPECT_EQ(proposed(book.state(), "2026-11-20T10:00:00Z", RuleBook::stacked({&alone})),
            "none: w1\n");
}

/// 205 L at 90 %: 184.5 L.
entries::Effects with_limit() {
  entries::Effects effects = tallies::usual_register();
  effects.push_back(
      tallies::alters("container", "w1",
                      {tallies::number_field("capacity_l", 205'000, "l"),
                       tallies::number_field("working_limit_percent", 90'000, "percent")}));
  return effects;
}

Filling filling_at(const tallies::State& state, const std::string& now) {
  const Scene scene(state, at(now), *base::Zone::find("UTC"));
  for (const tallies::Level& level : tallies::levels(state, scene.now())) {
    if (level.container == "w1") return filling_of(scene, level);
  }
  return {};
}

TEST(Filling, NeedsFourWeeksAndFiveAdditions) {
  tallies::BookUnderTest book(with_limit());
  for (const char* day : {"01", "08", "15", "22"}) {
    book.enter(at("2026-09-" + std::string(day) + "T10:00:00Z"), {adds("w1", ml(10'000))});
  }
  EXPECT_EQ(filling_at(book.state(), "2026-09-28T23:59:59Z").none, NoForecast::kTooFewDays);
  EXPECT_EQ(filling_at(book.state(), "2026-09-29T00:00:00Z").none, NoForecast::kTooFewAdditions);
  book.enter(at("2026-09-27T10:00:00Z"), {adds("w1", ml(10'000))});
  const Filling filling = filling_at(book.state(), "2026-09-29T00:00:00Z");
  EXPECT_EQ(filling.none, NoForecast::kNone);
  EXPECT_LE(*filling.earliest_95, *filling.earliest_80);
  EXPECT_LE(*filling.earliest_80, *filling.median);
  EXPECT_NEAR(filling.per_day, 1.8e6, 0.1e6);  // µL: 50 L in four weeks, more of late
}

TEST(Filling, CountsTodayAsContentAndNotAsHistory) {
  tallies::BookUnderTest book(with_limit());
  for (const char* day : {"01", "05", "08", "15", "22"}) {
    book.enter(at("2026-09-" + std::string(day) + "T10:00:00Z"), {adds("w1", ml(10'000))});
  }
  const Filling before = filling_at(book.state(), "2026-09-29T12:00:00Z");
  book.enter(at("2026-09-29T10:00:00Z"), {adds("w1", ml(30'000))});
  const Filling after = filling_at(book.state(), "2026-09-29T12:00:00Z");
  EXPECT_EQ(before.per_day, after.per_day);
  EXPECT_LT(*after.median, *before.median);
}

TEST(Filling, SaysWhyThereIsNone) {
  tallies::BookUnderTest book(with_limit());
  book.enter(at("2026-09-01T10:00:00Z"), {adds("w1", ml(184'500))});
  EXPECT_EQ(code_of(filling_at(book.state(), "2026-12-01T10:00:00Z").none), "at-limit");
  book.enter(at("2026-09-02T10:00:00Z"), {tallies::handles("w1", entries::ContainerAct::kSealed)});
  EXPECT_EQ(code_of(filling_at(book.state(), "2026-12-01T10:00:00Z").none), "sealed");
  entries::Effects effects = tallies::usual_register();
  effects.push_back(tallies::alters(
      "container", "w1", {tallies::number_field("working_limit_percent", 0, "percent")}));
  tallies::BookUnderTest plain(effects);
  EXPECT_EQ(says_of(filling_at(plain.state(), "2026-12-01T10:00:00Z").none),
            "no-forecast-no-limit");
}

}  // namespace
}  // namespace benchwarden::rules
