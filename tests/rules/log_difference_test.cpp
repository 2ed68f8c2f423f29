// What a case file cannot show: what hundreds of struck entries do to an uncertainty.

#include <gtest/gtest.h>

#include "rules/rule_book.h"
#include "rules/rule_pack.h"
#include "tallies/state_builder.h"

namespace benchwarden::rules {
namespace {

using tallies::adds;
using tallies::BookUnderTest;
using tallies::hour;
using tallies::ml;

std::string uncertainty_of(const BookUnderTest& book) {
  const auto pack = read_pack(
      "pack = \"local\"\ntitle = \"Local\"\nedition = \"2026-11-25\"\nremarks = \"None.\"\n"
      "[[rules]]\nid = \"own.rule\"\nkind = \"log-difference\"\ncitation = \"ours\"\n"
      "edition = \"2026\"\nconfidence = \"text-seen\"\nsentence = \"As agreed.\"\n"
      "settings = { weighs = \"due\" }\nfigures = { each = { value = \"10\", unit = \"ml\" },"
      " common = { value = \"2\", unit = \"percent\" }, reading = { value = \"100\", unit = \"ml\" "
      "},"
      " of_interest = { value = \"1\", unit = \"ml\" } }\n",
      "local.toml");
  if (!pack) return base::format_faults(pack.error());
  const Scene scene(book.state(), tallies::day(90), *base::Zone::find("UTC"));
  const auto said = judge(RuleBook::stacked({&*pack}), scene);
  if (said.findings.size() != 1) return "findings: " + std::to_string(said.findings.size());
  for (const auto& [name, shown] : said.findings.front().values) {
    if (name == "limit") return shown.value;
  }
  return "no limit";
}

/// 1 L in, 5 L read, and so many entries made and struck out, or moved to another drum, before it.
BookUnderTest read_after(int struck, int moved) {
  BookUnderTest book(tallies::usual_register());
  book.enter(hour(1), {adds("w1", ml(1'000))});
  for (int i = 0; i < struck; ++i) book.strike(book.enter(hour(2 + i), {adds("w1", ml(50))}));
  for (int i = 0; i < moved; ++i) {
    book.correct(book.enter(hour(2 + i), {adds("w1", ml(50))}), {adds("w2", ml(50))});
  }
  book.enter(hour(500), {tallies::reads("w1", ml(5'000))});
  return book;
}

TEST(LogDifference, IsNoLessCertainForWhatWasStruckOut) {
  const std::string clean = uncertainty_of(read_after(0, 0));
  EXPECT_EQ(clean, "0.205");  // twice the root of 10², 20² and 100² mL²
  EXPECT_EQ(uncertainty_of(read_after(200, 0)), clean);
  EXPECT_EQ(uncertainty_of(read_after(0, 200)), clean);
}

}  // namespace
}  // namespace benchwarden::rules
