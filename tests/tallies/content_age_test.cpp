#include "tallies/content_age.h"

#include <gtest/gtest.h>

#include "tallies/state_builder.h"

namespace benchwarden::tallies {
namespace {

using entries::ContainerAct;

std::optional<base::Instant> oldest(const BookUnderTest& book, const std::string& container,
                                    base::Instant until = kEnd) {
  return ContentAges(book.state()).oldest(container, until);
}

TEST(ContentAges, BeginWithWhatCameInFirst) {
  BookUnderTest book(usual_register());
  EXPECT_FALSE(oldest(book, "w1"));
  book.enter(day(2), {adds("w1", ml(500))});
  book.enter(day(1), {adds("w1", ml(500))});
  EXPECT_EQ(oldest(book, "w1"), day(1));
  EXPECT_FALSE(oldest(book, "w1", day(1)));
}

TEST(ContentAges, GoWithWhatIsMovedWholeOrInPart) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(500))});
  book.enter(day(5), {adds("w2", ml(500))});
  book.enter(day(6), {moves("w1", "w2", ml(100))});
  EXPECT_EQ(oldest(book, "w2"), day(1));
  EXPECT_EQ(oldest(book, "w2", day(6)), day(5)) << "as it was then";
  book.enter(day(7), {moves("w2", "w1", kAll)});
  EXPECT_FALSE(oldest(book, "w2"));
  EXPECT_EQ(oldest(book, "w1"), day(1));
}

TEST(ContentAges, FollowALateEntryIntoTheContainerItWasPouredOutOf) {
  BookUnderTest book(usual_register());
  book.enter(day(4), {adds("w1", ml(500))});
  book.enter(day(6), {moves("w1", "w2", kAll)});
  EXPECT_EQ(oldest(book, "w2"), day(4));
  book.enter(day(2), {adds("w1", ml(500))});
  EXPECT_EQ(oldest(book, "w2"), day(2));
}

TEST(ContentAges, EndWhereAContainerWasRecordedAsEmpty) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(500))});
  book.enter(day(3), {handles("w1", ContainerAct::kSwapped)});
  book.enter(day(4), {adds("w1", ml(500))});
  book.enter(day(6), {moves("w1", "w2", kAll)});
  EXPECT_EQ(oldest(book, "w2"), day(4));
}

TEST(ContentAges, LeaveOutAMoveThatWasStruck) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(500))});
  book.enter(day(5), {adds("w2", ml(500))});
  const auto move = book.enter(day(6), {moves("w1", "w2", ml(100))});
  book.strike(move);
  EXPECT_EQ(oldest(book, "w2"), day(5));
}

TEST(ContentAges, BeginWithTheMoveOutOfAWorkingContainer) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("can", ml(300))});
  EXPECT_EQ(oldest(book, "can"), day(1));
  book.enter(day(3), {moves("can", "w1", kAll)});
  EXPECT_EQ(oldest(book, "w1"), day(3));
}

TEST(ContentAges, BeginAgainWhereContentAgesOnlyFromADayOn) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(500))});
  book.enter(day(6), {moves("w1", "w2", ml(100))});
  ContentAges ages(book.state(), [](const std::string& container) {
    return container == "w1" ? std::optional(day(4)) : std::optional(day(0));
  });
  EXPECT_EQ(ages.oldest("w1", kEnd), day(4));
  EXPECT_EQ(ages.oldest("w2", kEnd), day(4));
}

TEST(ContentAges, HoldThroughVeryManyMovesToAndFro) {
  BookUnderTest book(usual_register());
  book.enter(hour(24), {adds("w1", ml(500))});
  for (int turn = 0; turn < 200; ++turn) {
    book.enter(hour(25 + 2 * turn), {moves("w1", "w2", kAll)});
    book.enter(hour(26 + 2 * turn), {moves("w2", "w1", kAll)});
  }
  EXPECT_EQ(oldest(book, "w1"), day(1));
}

}  // namespace
}  // namespace benchwarden::tallies
