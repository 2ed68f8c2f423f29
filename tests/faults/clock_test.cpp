#include <gtest/gtest.h>

#include <vector>

#include "access/access_fixture.h"
#include "book/book_fixture.h"

namespace benchwarden {
namespace {

constexpr std::int64_t kYearMs = 365 * base::kDayMs;

/// The clock of the machine jumps while the program runs: a battery is empty, a time server is
/// wrong for a while, somebody sets it by hand.
class BookUnderAWrongClock : public testing::BookTest {
 protected:
  void jump(std::int64_t ms) { clock_.set({clock_.now().ms + ms}); }
};

TEST_F(BookUnderAWrongClock, GoesOnInTheOrderOfItsNumbersAndHoldsAtVerify) {
  open();
  std::vector<std::int64_t> read;
  std::uint64_t number = 0;
  for (const std::int64_t by : {std::int64_t{0}, 50 * kYearMs, -60 * kYearMs, 10 * kYearMs}) {
    jump(by);
    append(number + 1, number + 2);
    number += 2;
    read.insert(read.end(), 2, clock_.now().ms);
  }
  close();
  open();
  const auto entries = book_->select({});
  ASSERT_TRUE(entries.ok());
  ASSERT_EQ(entries->size(), read.size());
  for (std::size_t i = 0; i < read.size(); ++i) {
    EXPECT_EQ((*entries)[i].seq, i + 1);
    EXPECT_EQ((*entries)[i].recorded_at.ms, read[i]) << "as the clock was read";
  }
  EXPECT_TRUE(verified().faults.empty());
}

TEST_F(BookUnderAWrongClock, TakesFilesThatWaitedWhileItWasRight) {
  open();
  for (const std::int64_t by : {base::kDayMs / 2, -base::kDayMs / 2}) {
    const std::string photo = "photo " + std::to_string(by);
    ASSERT_TRUE(book_->stage_attachment(photo).ok());
    jump(by);
    EXPECT_TRUE(*book_->knows_attachment(base::sha256(photo)));
  }
  for (const std::int64_t by : {20 * kYearMs, -20 * kYearMs}) {
    jump(by);
    EXPECT_TRUE(book_->stage_attachment("another").ok()) << "room is made, or was there";
    EXPECT_TRUE(*book_->knows_attachment(base::sha256("another")));
  }
}

class AccessUnderAWrongClock : public access::AccessTest {
 protected:
  access::Person person_ = add("Bench A");
  bool lives(const access::NewSession& session) { return access_->session(session.token).ok(); }
};

TEST_F(AccessUnderAWrongClock, ASessionOutlivesASmallCorrection) {
  const access::NewSession session = sign_in(person_);
  for (const std::int64_t by : {-10 * access::kSecond, -access::kMinute, 5 * access::kMinute}) {
    clock_.pass(by);
    EXPECT_TRUE(lives(session)) << by;
  }
}

TEST_F(AccessUnderAWrongClock, ASessionOfATimeToComeEnds) {
  clock_.pass(50 * kYearMs);
  const access::NewSession used = sign_in(person_);
  const access::NewSession unused = sign_in(person_);
  ASSERT_TRUE(lives(used));
  clock_.pass(-50 * kYearMs);
  EXPECT_FALSE(lives(used)) << "it would last for fifty years";
  EXPECT_TRUE(access_->sessions()->empty());
  reopen();
  EXPECT_FALSE(lives(unused));
  EXPECT_TRUE(lives(sign_in(person_)));
  EXPECT_EQ(number("SELECT count(*) FROM session"), 1) << "they go at the next sign-in";
}

TEST_F(AccessUnderAWrongClock, ALockOutLastsNoLongerThanItsWait) {
  clock_.pass(kYearMs);
  fail_times(person_, 5);
  clock_.pass(-kYearMs);
  EXPECT_EQ(refusal(person_.id, kPin).reason, access::SignInRefusal::Reason::kLockedOut);
  clock_.pass(30 * access::kSecond);
  EXPECT_TRUE(lives(sign_in(person_)));
}

class SetUpUnderAWrongClock : public access::AccessTest {};

TEST_F(SetUpUnderAWrongClock, TheNextCodeIsShown) {
  std::vector<std::string> shown;
  settings_.show_setup_code = [&](const std::string& code) { shown.push_back(code); };
  settings_.setup_tries = 1;
  reopen();
  clock_.pass(kYearMs);
  ASSERT_TRUE(access_->setup_code().ok());
  clock_.pass(-kYearMs);
  EXPECT_FALSE(access_->first_manager("AAAAAAAA", "Office", kPin).ok());
  EXPECT_EQ(shown.size(), 1U);
}

}  // namespace
}  // namespace benchwarden
