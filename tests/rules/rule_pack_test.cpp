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

TEST(RulePack, TellsAllFaultsAtOnce) {
  const std::string faults =
      faults_of(kHead + rule("", "storage-watch") + rule("colour = \"red\"\n"));
  EXPECT_THAT(faults, HasSubstr("storage-watch"));
  EXPECT_THAT(faults, HasSubstr("colour"));
}

}  // namespace
}  // namespace benchwarden::rules
