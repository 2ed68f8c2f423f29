#include "tallies/claims.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tallies/state_builder.h"

namespace benchwarden::tallies {
namespace {

using entries::Authorship;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

entries::Effect answers(std::vector<std::uint64_t> entries, Authorship authorship) {
  return entries::Confirms{std::move(entries), authorship};
}

/// Entries 1, 2 and 4 came without a PIN.
BookUnderTest claimed_book() {
  BookUnderTest book;
  for (const bool verified : {false, false, true, false}) {
    book.enter({0, day(1), day(1), verified, {}});
  }
  return book;
}

TEST(Claims, AreOpenUntilTheirPersonAnswers) {
  BookUnderTest book = claimed_book();
  const Claims& claims = book.state().claims();
  EXPECT_THAT(claims.open(), ElementsAre(1, 2, 4));
  const auto mine = book.enter(day(2), {answers({1, 4}, Authorship::kMine)});
  const auto others = book.enter(day(2), {answers({2}, Authorship::kNotMine)});
  EXPECT_THAT(claims.open(), IsEmpty());
  EXPECT_EQ(*claims.answer_for(1), (Answer{mine, Authorship::kMine}));
  EXPECT_EQ(*claims.answer_for(4), (Answer{mine, Authorship::kMine}));
  EXPECT_EQ(*claims.answer_for(2), (Answer{others, Authorship::kNotMine}));
  EXPECT_EQ(claims.answer_for(3), nullptr) << "came with the PIN";
}

TEST(Claims, AreOpenAgainOnceTheAnswerIsStruckOut) {
  BookUnderTest book = claimed_book();
  const auto first = book.enter(day(2), {answers({1, 2}, Authorship::kMine)});
  book.enter(day(2), {answers({4}, Authorship::kMine)});
  book.strike(first);
  EXPECT_THAT(book.state().claims().open(), ElementsAre(1, 2));
  EXPECT_EQ(book.state().claims().answer_for(1), nullptr);
  EXPECT_NE(book.state().claims().answer_for(4), nullptr);
  const auto again = book.enter(day(3), {answers({1, 2}, Authorship::kNotMine)});
  EXPECT_EQ(*book.state().claims().answer_for(1), (Answer{again, Authorship::kNotMine}));
}

TEST(Claims, AreCorrectionsToo) {
  BookUnderTest book;
  const auto seq = book.enter(day(1), {adds("w1", ml(5))});
  State state = book.state();
  Amendment strike;
  strike.seq = 2;
  strike.target_seq = seq;
  strike.struck = true;
  strike.person_verified = false;
  state.apply(strike);
  EXPECT_THAT(state.claims().open(), ElementsAre(2));
}

TEST(Claims, PassOverAnswersForWhatIsNotSeenOrAnsweredAlready) {
  BookUnderTest book = claimed_book();
  const auto first = book.enter(day(2), {answers({1, 3}, Authorship::kMine)});
  const auto second = book.enter(day(2), {answers({1, 99}, Authorship::kNotMine)});
  EXPECT_EQ(*book.state().claims().answer_for(1), (Answer{first, Authorship::kMine}));
  EXPECT_EQ(book.state().claims().answer_for(3), nullptr);
  EXPECT_EQ(book.state().claims().answer_for(99), nullptr);
  book.strike(second);
  EXPECT_EQ(*book.state().claims().answer_for(1), (Answer{first, Authorship::kMine}))
      << "only what that entry answered is open again";
}

TEST(Claims, AreKeptInASnapshot) {
  BookUnderTest book = claimed_book();
  book.enter(day(2), {answers({1}, Authorship::kNotMine), answers({2}, Authorship::kMine)});
  const auto state = State::from_snapshot(book.state().snapshot());
  ASSERT_TRUE(state.ok());
  EXPECT_EQ(state->claims(), book.state().claims());
  EXPECT_THAT(state->claims().open(), ElementsAre(4));
}

}  // namespace
}  // namespace benchwarden::tallies
