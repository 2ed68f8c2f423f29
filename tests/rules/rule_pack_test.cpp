#include "rules/rule_pack.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace benchwarden::rules {
namespace {

using ::testing::HasSubstr;

const std::string kHead =
    "pack = \"local\"\ntitle = \"Local\"\nedition = \"2026-11-25\"\nremarks = \"None.\"\n";

std::string rule(const std::string& more, const std::string& kind = "storage-clock") {
  return "[[rules]]\nid = \"own.clock\"\nkind = \"" + kind +
         "\"\ncitation = \"our permit\"\nedition = \"2026\"\nconfidence = \"text-seen\"\n"
         "sentence = \"Thirty days.\"\n" +
         more;
}

std::string faults_of(const std::string& toml) {
  const auto pack = read_pack(toml, "local.toml");
  return pack ? "" : base::format_faults(pack.error());
}

const std::string kLimit = "figures = { limit = { value = \"30\", unit = \"d\" } }\n";

TEST(RulePack, IsReadWithItsFigures) {
  const auto pack = read_pack(kHead + rule(kLimit + "days = \"working\"\n"), "local.toml");
  ASSERT_TRUE(pack.ok()) << base::format_faults(pack.error());
  ASSERT_EQ(pack->rules.size(), 1U);
  const Rule& read = pack->rules.front();
  EXPECT_EQ(read.authority.rule, "own.clock");
  EXPECT_EQ(read.authority.pack, "local");
  EXPECT_EQ(read.authority.edition, "2026-11-25");
  EXPECT_EQ(read.figure("limit")->value, base::Decimal{30'000});
  EXPECT_EQ(read.figure("warn"), nullptr);
  EXPECT_TRUE(read.working_days);
}

TEST(RulePack, NamesFileLineAndReasonOfEveryFault) {
  EXPECT_THAT(faults_of(kHead + rule("", "storage-watch")),
              HasSubstr("local.toml:5: there is no kind of rule 'storage-watch', accepted: "));
  EXPECT_THAT(faults_of(kHead + rule("")),
              HasSubstr("local.toml:5: a rule of the kind 'storage-clock' needs the figure "
                        "'limit'"));
  EXPECT_THAT(faults_of(kHead + rule("figures = { limit = { value = \"30\", unit = \"kg\" } }\n")),
              HasSubstr("local.toml:12: figure 'limit' is in 'kg', accepted: d, months, years"));
  EXPECT_THAT(faults_of(kHead + rule("figures = { limit = { value = \"many\", unit = \"d\" } }\n")),
              HasSubstr("figure 'limit': 'many' is no decimal"));
  EXPECT_THAT(faults_of(kHead + rule(kLimit + "days = \"some\"\n")),
              HasSubstr("days 'some' is none of calendar, working"));
  EXPECT_THAT(faults_of(kHead + rule(kLimit) + rule(kLimit)),
              HasSubstr("a second rule 'own.clock'"));
  EXPECT_THAT(faults_of("pack = \"local\"\ntitle = \"L\"\nedition = \"soon\"\nremarks = \"x\"\n"),
              HasSubstr("the edition is no day"));
  EXPECT_THAT(faults_of(kHead + rule(kLimit +
                                     "applies = [{ of = \"drum\", field = \"a\", codes = [] }]\n")),
              HasSubstr("of 'drum' is none of subject, stream, workshop"));
  EXPECT_THAT(faults_of(kHead + rule("figures = { after = { value = \"9\", unit = \"d\" } }\n"
                                     "settings = { first = \"2026-02-30\" }\n",
                                     "calendar-date")),
              HasSubstr("setting 'first' is '2026-02-30', accepted: a day (YYYY-MM-DD)"));
}

/// The faults of a clock whose limit is this.
std::string limited(const std::string& value, const std::string& unit,
                    const std::string& more = "") {
  return faults_of(kHead + rule("figures = { limit = { value = \"" + value + "\", unit = \"" +
                                unit + "\" } }\n" + more));
}

TEST(RulePack, TakesFiguresOfTheRangeOfTheirUnit) {
  for (const auto& [value, unit] : {std::pair{"0", "d"},
                                    {"3650", "d"},
                                    {"1", "months"},
                                    {"1200", "months"},
                                    {"100", "years"}}) {
    EXPECT_EQ(limited(value, unit), "") << value << unit;
  }
  for (const char* value : {"-30", "30.9", "3651", "99999999999"}) {
    EXPECT_EQ(limited(value, "d"), "local.toml:12: figure 'limit' is '" + std::string(value) +
                                       "', accepted: a whole number from 0 to 3650\n");
  }
  for (const char* value : {"0", "0.5", "1201"}) {
    EXPECT_THAT(limited(value, "months"), HasSubstr("accepted: a whole number from 1 to 1200"));
  }
  EXPECT_THAT(limited("101", "years"), HasSubstr("accepted: a whole number from 1 to 100"));
  EXPECT_EQ(limited("366", "d", "days = \"working\"\n"), "");
  EXPECT_THAT(limited("367", "d", "days = \"working\"\n"),
              HasSubstr("accepted: a whole number from 0 to 366"));
}

TEST(RulePack, TakesWhatIsCountedBackOnlySoFarAsItIsJudged) {
  EXPECT_THAT(
      faults_of(kHead + rule("figures = { span = { value = \"99999999999\", unit = \"d\" } }\n",
                             "days-without-entry")),
      HasSubstr("figure 'span' is '99999999999', accepted: a whole number from 1 to 366"));
  EXPECT_THAT(
      faults_of(kHead + rule("figures = { limit = { value = \"14\", unit = \"d\" }, months = "
                             "{ value = \"1000000\", unit = \"months\" } }\n",
                             "month-not-closed")),
      HasSubstr("figure 'months' is '1000000', accepted: a whole number from 1 to 120"));
}

TEST(RulePack, TakesNamesAndWordsThatCanBeSeenAndGivenBack) {
  const auto named = [](const std::string& id) {
    std::string text = rule(kLimit);
    text.replace(text.find("own.clock"), 9, id);
    return faults_of(kHead + text);
  };
  EXPECT_EQ(named("us.oil.mix_ignitable-2"), "");
  EXPECT_THAT(named(""), HasSubstr("local.toml:5: id '' is no name of a rule, accepted: 1 to 60 "));
  EXPECT_THAT(named(std::string(61, 'x')), HasSubstr("is no name of a rule"));
  EXPECT_THAT(named("Own clock"), HasSubstr("is no name of a rule"));
  EXPECT_THAT(named("a\\nb"), HasSubstr("id holds the hidden sign U+000A"));
  const auto worded = [](const std::string& was, const std::string& is) {
    std::string text = kHead + rule(kLimit);
    text.replace(text.find(was), was.size(), is);
    return faults_of(text);
  };
  EXPECT_THAT(worded("\"local\"", "\"\""),
              HasSubstr("pack '' is no name of a pack, accepted: 1 to"));
  EXPECT_THAT(worded("\"local\"", "\"../x\""), HasSubstr("pack '../x' is no name of a pack"));
  EXPECT_THAT(worded("\"Local\"", "\"Lo\\u0007cal\""),
              HasSubstr("title holds the hidden sign U+0007"));
  EXPECT_THAT(worded("\"Local\"", "\"Lo\\u202Ecal\""),
              HasSubstr("title holds the hidden sign U+202E"));
  EXPECT_THAT(worded("\"Local\"", "\"  \""), HasSubstr("title is blank, accepted: 1 to 100 signs"));
  EXPECT_THAT(worded("\"our permit\"", "\"" + std::string(1001, 'x') + "\""),
              HasSubstr("citation has 1001 signs, accepted: 1 to 1000"));
  EXPECT_THAT(faults_of(kHead), HasSubstr("a pack has at least one rule"));
}

TEST(RulePack, TellsOfEveryFigureHowWellItIsKnown) {
  const auto pack = read_pack(
      kHead +
          rule("[rules.figures]\nlimit = { value = \"18\", unit = \"percent\" }\n"
               "baseline = { value = \"20.9\", unit = \"percent\", confidence = \"second-hand\" }\n"
               "[rules.settings]\nrelease = \"all\"\n",
               "room-oxygen"),
      "local.toml");
  ASSERT_TRUE(pack.ok()) << base::format_faults(pack.error());
  const Rule& read = pack->rules.front();
  using findings::Confidence;
  EXPECT_EQ(read.figure("limit")->confidence, Confidence::kTextSeen);
  EXPECT_EQ(read.figure("baseline")->confidence, Confidence::kSecondHand);
  EXPECT_EQ(read.authority.confidence, Confidence::kSecondHand) << "of the least certain";
  EXPECT_EQ(read.authority_of(*read.figure("limit")).confidence, Confidence::kTextSeen);
}

TEST(RulePack, TakesTheDaysOfWarningForTheWorkshopsOwn) {
  const auto pack = read_pack(kHead + rule("figures = { limit = { value = \"30\", unit = \"d\" }, "
                                           "warn = { value = \"3\", unit = "
                                           "\"d\" } }\n"),
                              "local.toml");
  ASSERT_TRUE(pack.ok());
  using findings::Confidence;
  EXPECT_EQ(pack->rules.front().figure("warn")->confidence, Confidence::kOwnRule);
  EXPECT_EQ(pack->rules.front().authority.confidence, Confidence::kTextSeen);
  EXPECT_THAT(
      faults_of(kHead + rule("figures = { limit = { value = \"30\", unit = \"d\", confidence = "
                             "\"sure\" } }\n")),
      HasSubstr("confidence 'sure' is none of text-seen, own-rule, second-hand, from-memory"));
}

TEST(RulePack, TellsAllFaultsAtOnce) {
  const std::string faults =
      faults_of(kHead + rule("", "storage-watch") + rule("colour = \"red\"\n"));
  EXPECT_THAT(faults, HasSubstr("storage-watch"));
  EXPECT_THAT(faults, HasSubstr("colour"));
}

}  // namespace
}  // namespace benchwarden::rules
