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
    return shut_out_ms(rules, Failures{failures, then}, then).value_or(0);
  };
  EXPECT_EQ(wait_after(0), 0);
  EXPECT_EQ(wait_after(4), 0);
  EXPECT_EQ(wait_after(5), 30'000);
  EXPECT_EQ(wait_after(7), 30'000);
  EXPECT_EQ(wait_after(8), 300'000);
  EXPECT_EQ(wait_after(9), 300'000);
  EXPECT_EQ(wait_after(10), 3'600'000);
  EXPECT_EQ(wait_after(1'000), 3'600'000);
}

TEST(LockOutRule, RefusesStepsThatDoNotRise) {
  LockOut rules;
  rules.second_failures = 4;
  EXPECT_FALSE(check_lock_out(rules).ok());
  rules = {};
  rules.third_failures = 7;
  EXPECT_FALSE(check_lock_out(rules).ok());
  rules = {};
  rules.first_failures = 0;
  EXPECT_FALSE(check_lock_out(rules).ok());
  rules = {};
  rules.first_wait_ms = -1;
  EXPECT_FALSE(check_lock_out(rules).ok());
  rules = {};
  rules.third_wait_ms = -1;
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

TEST_F(LockOutTest, TheTenthWrongPinCostsAnHourAndNoneCostsMore) {
  fail_times(person_, 5);
  for (int i = 0; i < 5; ++i) {
    clock_.pass(5 * kMinute);
    fail_times(person_, 1);
  }
  expect_locked_for(3'600);
  clock_.pass(kHour);
  fail_times(person_, 1);
  expect_locked_for(3'600);
  clock_.pass(kHour);
  sign_in(person_);
}

TEST_F(LockOutTest, ANewPinEndsTheWait) {
  fail_times(person_, 5);
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
  settings_.lock_out = LockOut{1, 2 * kSecond, 2, 4 * kSecond, 3, 8 * kSecond};
  reopen();
  fail_times(person_, 1);
  expect_locked_for(2);
  clock_.pass(2 * kSecond);
  fail_times(person_, 1);
  expect_locked_for(4);
  clock_.pass(4 * kSecond);
  fail_times(person_, 1);
  expect_locked_for(8);
}

/// Wrong PINs from the first to the tenth, each as soon as it is let through.
class Stranger : public LockOutTest {
 protected:
  static constexpr const char* kStranger = "192.0.2.66";
  static constexpr const char* kTablet = "192.0.2.10";

  void shut_out_from(const char* address) {
    fail_times(person_, 5, address);
    for (int i = 0; i < 5; ++i) {
      clock_.pass(5 * kMinute);
      fail_times(person_, 1, address);
    }
    ASSERT_EQ(refusal(person_.id, kPin, address).reason, Reason::kLockedOut);
  }
};

TEST_F(Stranger, DoesNotShutThePersonOutWhereThePersonHasSignedInBefore) {
  sign_in(person_, kPin, kTablet);
  shut_out_from(kStranger);
  sign_in(person_, kPin, kTablet);
  EXPECT_EQ(refusal(person_.id, kPin, kStranger).reason, Reason::kLockedOut)
      << "and gets no new tries by it";
}

TEST_F(Stranger, GetsNoFurtherTriesFromAnotherAddress) {
  sign_in(person_, kPin, kTablet);
  shut_out_from(kStranger);
  EXPECT_EQ(refusal(person_.id, kPin, "192.0.2.67").reason, Reason::kLockedOut);
}

TEST_F(Stranger, IsNotHelpedByAnAddressTheyHold) {
  sign_in(person_, kPin, kTablet);
  shut_out_from(kTablet);
  sign_in(person_, kPin, kStranger);
}

TEST_F(LockOutTest, AnAddressIsForgottenWhenTooManyOthersWereUsedSince) {
  settings_.lock_out.addresses_kept = 2;
  reopen();
  for (const char* address : {"192.0.2.1", "192.0.2.2", "192.0.2.3"}) {
    sign_in(person_, kPin, address);
    clock_.pass(kSecond);
  }
  fail_times(person_, 5, "192.0.2.66");
  sign_in(person_, kPin, "192.0.2.2");
  sign_in(person_, kPin, "192.0.2.3");
  EXPECT_EQ(refusal(person_.id, kPin, "192.0.2.1").reason, Reason::kLockedOut);
}

TEST_F(LockOutTest, ANewPinForgetsTheAddresses) {
  sign_in(person_, kPin, "192.0.2.1");
  ASSERT_TRUE(access_->reset_pin(person_.id, kOtherPin, "machine").ok());
  EXPECT_EQ(number("SELECT count(*) FROM sign_in_guard"), 0);
}

}  // namespace
}  // namespace benchwarden::access
