// No figure that a pack may have makes a judgement fail, at whatever end of the calendar.

#include <gtest/gtest.h>

#include "base/text.h"
#include "rules/rule_kind.h"
#include "rules/told.h"
#include "tallies/state_builder.h"

namespace benchwarden::rules {
namespace {

constexpr base::CivilDate kLastDay{9999, 12, 31};

std::string_view word_for(const SettingSpec& spec) {
  if (!spec.choices.empty()) return spec.choices.front();
  if (spec.word == Word::kDate) return "1900-01-01";
  return spec.word == Word::kThing ? "container" : "level-reading";
}

enum class End { kLowest, kHighest };

/// A rule of the kind whose figures all stand at one end of their ranges, in one of their units.
Rule rule_of(const RuleKind& kind, End end, std::size_t unit) {
  Rule rule;
  rule.kind = kind.name;
  rule.authority.rule = "own.rule";
  for (const FigureSpec& spec : kind.figures) {
    const std::string_view in = spec.units[std::min(unit, spec.units.size() - 1)];
    const FigureRange range = spec.range.value_or(range_of_unit(in));
    const std::int64_t value = end == End::kLowest ? range.lowest : range.highest;
    rule.figures.emplace(spec.name, RuleFigure{{value * 1000}, std::string(in), {}, 0});
  }
  for (const SettingSpec& spec : kind.settings) rule.settings.emplace(spec.name, word_for(spec));
  return rule;
}

tallies::BookUnderTest full_book() {
  tallies::BookUnderTest book(tallies::usual_register());
  const auto at = [](const char* when) { return base::parse_rfc3339(when)->instant; };
  book.enter(at("2026-03-02T10:00:00Z"), {tallies::adds("w1", tallies::ml(40000))});
  book.enter(at("2026-06-02T10:00:00Z"), {tallies::adds("bin", tallies::kg(1))});
  return book;
}

TEST(FigureBounds, EveryKindJudgesAtBothEndsOfItsRanges) {
  const tallies::BookUnderTest book = full_book();
  for (const std::string& name : listed_words(list_kinds())) {
    const RuleKind& kind = *find_kind(name);
    for (const End end : {End::kLowest, End::kHighest}) {
      for (std::size_t unit = 0; unit < 3; ++unit) {
        const Rule rule = rule_of(kind, end, unit);
        for (const char* now : {"2026-07-01T10:00:00Z", "9999-12-31T10:00:00Z"}) {
          findings::Judgement said;
          kind.judge(rule,
                     Scene(book.state(), base::parse_rfc3339(now)->instant,
                           *base::Zone::find("Europe/London")),
                     said);
          for (const auto& due : said.due) EXPECT_LE(due.day, kLastDay) << name;
        }
      }
    }
  }
}

}  // namespace
}  // namespace benchwarden::rules
