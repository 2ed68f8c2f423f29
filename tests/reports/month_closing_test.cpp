// The digest of a month's figures, and what the report tells of a month that was closed.

#include "reports/month_closing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "print/html.h"
#include "reports/fixture.h"
#include "reports/waste_month_document.h"

namespace benchwarden::reports {
namespace {

using testing::HasSubstr;
using testing::Not;

WasteMonthFigures sums(const BookUnderTest& book) {
  return make_month_sums(book.state(), berlin(), kOctober, at("2026-11-05T09:00:00+01:00"));
}

std::string page(const WasteMonthFigures& figures) {
  return print::to_html(waste_month_document(figures, project_data()));
}

TEST(MonthSums, AreThoseOfTheReport) {
  const BookUnderTest book = october_book();
  const WasteMonthFigures alone = sums(book);
  const WasteMonthFigures report = figures_of(book, kOctober);
  EXPECT_EQ(month_digest(alone), month_digest(report));
  EXPECT_EQ(alone.hazardous.arisen, 1'731'000);
}

TEST(MonthDigest, HangsOnAmountsAndOnNoName) {
  BookUnderTest book = october_book();
  const std::string before = month_digest(sums(book));
  book.put("stream", "oil", {text("name", "Oil, used")}, "2026-11-04T08:00:00+01:00");
  EXPECT_EQ(month_digest(sums(book)), before);
  book.drain("w1", 1, "2026-10-30T08:00:00+01:00", "2026-11-04T08:00:00+01:00");
  EXPECT_NE(month_digest(sums(book)), before);
}

TEST(MonthDigest, IsOfTheMonthItself) {
  const BookUnderTest book = workshop_book();
  const auto of = [&](base::CivilMonth month) {
    return month_digest(
        make_month_sums(book.state(), berlin(), month, at("2026-12-05T09:00:00+01:00")));
  };
  EXPECT_NE(of({2026, 10}), of({2026, 11})) << "two months with nothing in them";
}

MonthClosing closing(const BookUnderTest& book, const WasteMonthFigures& then) {
  MonthClosing told;
  told.entry.seq = book.state().size() + 1;
  told.entry.content.kind = "month-close";
  told.entry.signature.person = "p2";
  told.book_size = book.state().size();
  told.digest = month_digest(then);
  told.statement = "one jug was estimated";
  told.streams = then.streams;
  return told;
}

ClosingFigures closed(const BookUnderTest& book, const MonthClosing& told) {
  std::vector<const RecordedEntry*> entries;
  for (const RecordedEntry& entry : book.entries()) entries.push_back(&entry);
  return closing_of(told, sums(book), entries, berlin(), book.state().claims());
}

TEST(MonthClosing, TellsNothingWhereNothingCameAfter) {
  const BookUnderTest book = october_book();
  const ClosingFigures told = closed(book, closing(book, sums(book)));
  EXPECT_TRUE(told.late.empty());
  EXPECT_TRUE(told.corrections.empty());
  EXPECT_TRUE(told.differences.empty());
}

TEST(MonthClosing, TellsWhatCameAfterAndTheDifference) {
  BookUnderTest book = october_book();
  const MonthClosing told = closing(book, sums(book));
  book.enter({"month-close", "2026-11-03T08:00:00+01:00", {}, {}});
  const std::uint64_t late =
      book.drain("w1", 500, "2026-10-30T08:00:00+01:00", "2026-11-04T08:00:00+01:00");
  const ClosingFigures since = closed(book, told);
  ASSERT_EQ(since.late.size(), 1U);
  EXPECT_EQ(since.late[0].seq, late);
  ASSERT_EQ(since.differences.size(), 1U);
  EXPECT_EQ(since.differences[0].facts.id, "oil");
  EXPECT_EQ(since.differences[0].arisen.now - since.differences[0].arisen.then, 500);

  WasteMonthFigures figures = figures_of(book, kOctober);
  figures.closing = since;
  EXPECT_THAT(page(figures), HasSubstr("After closing: entry " + std::to_string(late)));
  EXPECT_THAT(page(figures), HasSubstr("Statement: one jug was estimated"));
  EXPECT_THAT(page(figures), Not(HasSubstr("The figures of the streams are those")));
}

TEST(MonthClosing, SaysThatFiguresMovedWithoutAnEntryOfTheMonth) {
  const BookUnderTest book = october_book();
  MonthClosing told = closing(book, sums(book));
  ASSERT_FALSE(told.streams.empty());
  told.streams.front().standing += 1;
  WasteMonthFigures figures = figures_of(book, kOctober);
  figures.closing = closed(book, told);
  EXPECT_THAT(page(figures), HasSubstr("Figures of the month are others all the same"));
}

TEST(MonthClosing, SaysThatAMonthIsOpen) {
  const WasteMonthFigures figures = figures_of(october_book(), kOctober);
  EXPECT_THAT(page(figures), HasSubstr("The month is not closed"));
  EXPECT_EQ(base::write_json(*waste_month_json(figures).find("closing")), "null");
}

TEST(MonthClosing, SaysThatADigestIsNotThatOfTheBookItNames) {
  const BookUnderTest book = october_book();
  MonthClosing told = closing(book, sums(book));
  told.digest_holds = false;
  WasteMonthFigures figures = figures_of(book, kOctober);
  figures.closing = closed(book, told);
  EXPECT_THAT(page(figures), HasSubstr("The digest in the closing is not that"));
}

}  // namespace
}  // namespace benchwarden::reports
