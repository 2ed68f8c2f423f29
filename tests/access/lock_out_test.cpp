#include "access/lock_out.h"

#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

using Reason = SignInRefusal::Reason;

class LockOutTest : public AccessTest {
 protected:
  Person person_ = add("Bench A");

  void expect_locked_for(std::int64_t seconds) {
    const auto refused = refusal(person_.id, kPin);
    EXPECT_EQ(refused.reason, Reason::kLockedOut);
    EXPECT_EQ(refused.retry_after_s, seconds);
  }
};

TEST(LockOutRule, WaitsGrowWithTheFailures) {
  const LockOut rules;
  const base::Instant then{1'000'000};
  const auto wait_after = [&](int failures) {
    const auto out = shut_out(rules, Failures{failures, then}, then);
    return out ? out->wait_ms.value_or(-1) : 0;
  };
  EXPECT_EQ(wait_after(0), 0);
  EXPECT_EQ(wait_after(4), 0);
  EXPECT_EQ(wait_after(5), 30'000);
  EXPECT_EQ(wait_after(7), 30'000);
  EXPECT_EQ(wait_after(8), 300'000);
  EXPECT_EQ(wait_after(9), 300'000);
  EXPECT_EQ(wait_after(10), -1);
  EXPECT_EQ(wait_after(1'000), -1);
}

TEST(LockOutRule, RefusesStepsThatDoNotRise) {
  LockOut rules;
  rules.second_failures = 4;
  EXPECT_FALSE(check_lock_out(rules).ok());
  rules = {};
  rules.final_failures = 7;
  EXPECT_FALSE(check_lock_out(rules).ok());
  rules = {};
  rules.first_failures = 0;
  EXPECT_FALSE(check_lock_out(rules).ok());
  rules = {};
  rules.first_wait_ms = -1;
  EXPECT_FALSE(check_lock_out(rules).ok());
  EXPECT_TRUE(check_lock_out(LockOut{}).ok());
}

TEST_F(LockOutTest, FourWrongPinsAreForgiven) {
  fail_times(person_, 4);
  sign_in(person_);
}

TEST_F(LockOutTest, TheFifthWrongPinCostsThirtySecondsEvenWithTheRightOne) {
  fail_times(person_, 5);
  expect_locked_for(30);
  clock_.pass(29'999);
  expect_locked_for(1);
  clock_.pass(1);
  sign_in(person_);
}

TEST_F(LockOutTest, TriesWhileLockedOutNeitherCountNorHash) {
  fail_times(person_, 5);
  const auto before = access_->hash_load().made;
  for (int i = 0; i < 20; ++i) EXPECT_EQ(refusal(person_.id, kOtherPin).reason, Reason::kLockedOut);
  EXPECT_EQ(access_->hash_load().made, before);
  clock_.pass(30 * kSecond);
  sign_in(person_);
}

TEST_F(LockOutTest, TheEighthWrongPinCostsFiveMinutes) {
  fail_times(person_, 5);
  for (int i = 0; i < 3; ++i) {
    clock_.pass(30 * kSecond);
    fail_times(person_, 1);
  }
  expect_locked_for(300);
  clock_.pass(5 * kMinute - 1);
  expect_locked_for(1);
  clock_.pass(1);
  sign_in(person_);
}

TEST_F(LockOutTest, TheTenthWrongPinLocksUntilThePinIsSetAnew) {
  fail_times(person_, 5);
  for (int i = 0; i < 5; ++i) {
    clock_.pass(5 * kMinute);
    fail_times(person_, 1);
  }
  clock_.pass(1'000 * kHour);
  const auto refused = refusal(person_.id, kPin);
  EXPECT_EQ(refused.reason, Reason::kLockedOut);
  EXPECT_FALSE(refused.retry_after_s.has_value());

  ASSERT_TRUE(access_->reset_pin(person_.id, kOtherPin, "machine").ok());
  sign_in(person_, kOtherPin);
}

TEST_F(LockOutTest, ARightPinClearsTheCount) {
  fail_times(person_, 4);
  sign_in(person_);
  fail_times(person_, 4);
  sign_in(person_);
}

TEST_F(LockOutTest, TheCountSurvivesARestart) {
  fail_times(person_, 4);
  reopen();
  fail_times(person_, 1);
  reopen();
  expect_locked_for(30);
}

TEST_F(LockOutTest, OnePersonsFailuresDoNotLockOutAnother) {
  const Person other = add("Bench B");
  fail_times(person_, 5);
  sign_in(other);
}

TEST_F(LockOutTest, AClockSetBackDoesNotMakeTheWaitLonger) {
  fail_times(person_, 5);
  clock_.pass(-1'000 * kHour);
  expect_locked_for(30);
  clock_.pass(30 * kSecond);
  sign_in(person_);
}

TEST_F(LockOutTest, TheStepsAreSettings) {
  settings_.lock_out = LockOut{1, 2 * kSecond, 2, 4 * kSecond, 3};
  reopen();
  fail_times(person_, 1);
  expect_locked_for(2);
  clock_.pass(2 * kSecond);
  fail_times(person_, 1);
  expect_locked_for(4);
  clock_.pass(4 * kSecond);
  fail_times(person_, 1);
  clock_.pass(kHour);
  EXPECT_FALSE(refusal(person_.id, kPin).retry_after_s.has_value());
}

}  // namespace
}  // namespace benchwarden::access
