#include <string>
#include <vector>

#include "access/access_fixture.h"
#include "sqlite/database.h"

namespace benchwarden::access {
namespace {

class SessionsTest : public AccessTest {
 protected:
  Person technician_ = add("Bench A");

  bool lives(const NewSession& session) { return access_->session(session.token).ok(); }
  /// Uses the session every `step_ms`, `times` times; how many of them it lived through.
  int uses(const NewSession& session, std::int64_t step_ms, int times) {
    int lived = 0;
    for (int i = 0; i < times; ++i) {
      clock_.pass(step_ms);
      if (!lives(session)) break;
      ++lived;
    }
    return lived;
  }
};

TEST_F(SessionsTest, ATechniciansEndsAfterFourHoursUnused) {
  const NewSession session = sign_in(technician_);
  EXPECT_EQ(session.session.expires_at.ms, clock_.now().ms + 4 * kHour);
  clock_.pass(4 * kHour - 1);
  EXPECT_TRUE(lives(session));
  clock_.pass(4 * kHour);
  EXPECT_FALSE(lives(session));
}

TEST_F(SessionsTest, ATechniciansEndsAfterTwelveHoursHoweverMuchUsed) {
  const NewSession session = sign_in(technician_);
  EXPECT_EQ(uses(session, kHour, 20), 11);
}

TEST_F(SessionsTest, ManagersAndInspectorsEndAfterHalfAnHourUnusedOrEightHours) {
  for (const Role role : {Role::kManager, Role::kInspector}) {
    const Person person = add(std::string(role_name(role)), role);
    if (role == Role::kInspector) let_read(person);
    const NewSession unused = sign_in(person);
    EXPECT_EQ(unused.session.expires_at.ms, clock_.now().ms + 30 * kMinute);
    clock_.pass(30 * kMinute);
    EXPECT_FALSE(lives(unused));
    const NewSession used = sign_in(person);
    EXPECT_EQ(uses(used, 20 * kMinute, 50), 23);
  }
}

TEST_F(SessionsTest, AUseMovesTheEndButNotPastTheAbsoluteOne) {
  const NewSession session = sign_in(technician_);
  const std::int64_t start = clock_.now().ms;
  clock_.pass(kHour);
  EXPECT_EQ(access_->session(session.token)->expires_at.ms, start + 5 * kHour);
  clock_.pass(3 * kHour);
  EXPECT_EQ(access_->session(session.token)->expires_at.ms, start + 8 * kHour);
  clock_.pass(3 * kHour);
  ASSERT_TRUE(lives(session));
  clock_.pass(2 * kHour);
  EXPECT_EQ(access_->session(session.token)->expires_at.ms, start + 12 * kHour);
}

TEST_F(SessionsTest, LivesAreSettings) {
  settings_.sessions.technician = SessionLife{10 * kSecond, 25 * kSecond};
  reopen();
  EXPECT_EQ(uses(sign_in(technician_), 8 * kSecond, 10), 3);
  EXPECT_EQ(uses(sign_in(technician_), 10 * kSecond, 10), 0);
}

TEST_F(SessionsTest, SigningOutEndsThatSessionOnly) {
  const NewSession one = sign_in(technician_);
  const NewSession other = sign_in(technician_);
  ASSERT_NE(one.token, other.token);
  ASSERT_TRUE(lives(one));
  ASSERT_TRUE(access_->sign_out(one.token).ok());
  EXPECT_FALSE(lives(one));
  EXPECT_TRUE(lives(other));
  EXPECT_TRUE(access_->sign_out(one.token).ok());
  EXPECT_TRUE(access_->sign_out("no token").ok());
}

TEST_F(SessionsTest, WhatIsNoTokenFindsNothing) {
  const NewSession session = sign_in(technician_);
  std::string near = session.token;
  near[0] = near[0] == 'A' ? 'B' : 'A';
  for (const std::string& token :
       {std::string(), near, session.token + "A", session.token.substr(1), std::string(43, '\0')}) {
    const auto found = access_->session(token);
    ASSERT_FALSE(found.ok());
    EXPECT_EQ(found.error().code, base::ErrorCode::kForbidden);
  }
}

TEST_F(SessionsTest, ANewPinEndsAllSessionsOfThatPersonOnly) {
  const Person other = add("Bench B");
  const NewSession one = sign_in(technician_);
  const NewSession two = sign_in(technician_);
  const NewSession others = sign_in(other);
  ASSERT_TRUE(lives(one));
  ASSERT_TRUE(access_->reset_pin(technician_.id, kOtherPin, "machine").ok());
  EXPECT_FALSE(lives(one));
  EXPECT_FALSE(lives(two));
  EXPECT_TRUE(lives(others));
}

TEST_F(SessionsTest, DeactivatingEndsAllSessionsAlsoAfterARestart) {
  const NewSession one = sign_in(technician_);
  ASSERT_TRUE(lives(one));
  ASSERT_TRUE(access_->deactivate(technician_.id, "machine").ok());
  EXPECT_FALSE(lives(one));
  reopen();
  EXPECT_FALSE(lives(one));
}

TEST_F(SessionsTest, SurviveARestartWithTheirEnds) {
  const NewSession session = sign_in(technician_);
  const std::int64_t start = clock_.now().ms;
  clock_.pass(kHour);
  ASSERT_TRUE(lives(session));
  reopen();
  const auto found = access_->session(session.token);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->name, "Bench A");
  EXPECT_EQ(found->expires_at.ms, start + 5 * kHour);
}

TEST_F(SessionsTest, TheLastUseIsWrittenOnceAMinute) {
  const NewSession session = sign_in(technician_);
  const std::int64_t start = clock_.now().ms;
  const auto written = [&] { return number("SELECT last_seen_ms FROM session") - start; };
  clock_.pass(59 * kSecond);
  ASSERT_TRUE(lives(session));
  EXPECT_EQ(written(), 0);
  clock_.pass(kSecond);
  ASSERT_TRUE(lives(session));
  EXPECT_EQ(written(), 60 * kSecond);
  clock_.pass(30 * kSecond);
  ASSERT_TRUE(lives(session));
  EXPECT_EQ(written(), 60 * kSecond);
}

TEST_F(SessionsTest, EndedOnesArePurgedAtTheNextSignIn) {
  for (int i = 0; i < 3; ++i) sign_in(technician_);
  clock_.pass(12 * kHour);
  EXPECT_EQ(number("SELECT count(*) FROM session"), 3);
  const NewSession fresh = sign_in(technician_);
  EXPECT_EQ(number("SELECT count(*) FROM session"), 1);
  EXPECT_TRUE(lives(fresh));
}

TEST_F(SessionsTest, PurgingSparesOneWhoseUseIsNotWrittenYet) {
  const Person manager = add("Office", Role::kManager);
  const NewSession session = sign_in(manager);
  clock_.pass(59 * kSecond);
  ASSERT_TRUE(lives(session));
  clock_.pass(30 * kMinute - kSecond);  // ended by its row, alive by its last use
  sign_in(technician_);
  EXPECT_EQ(number("SELECT count(*) FROM session"), 2);
  EXPECT_TRUE(lives(session));
}

TEST_F(SessionsTest, OneTooManyEndsTheOneUnusedForLongest) {
  settings_.sessions.per_person_max = 2;
  reopen();
  const NewSession first = sign_in(technician_);
  clock_.pass(kMinute);
  const NewSession second = sign_in(technician_);
  clock_.pass(kMinute);
  ASSERT_TRUE(lives(first));
  const NewSession third = sign_in(technician_);
  EXPECT_TRUE(lives(first));
  EXPECT_FALSE(lives(second));
  EXPECT_TRUE(lives(third));
}

TEST_F(SessionsTest, MoreThanTheCacheHoldsAllLive) {
  settings_.sessions.cached_max = 3;
  reopen();
  std::vector<NewSession> sessions;
  for (int i = 0; i < 8; ++i) sessions.push_back(sign_in(technician_));
  for (int round = 0; round < 2; ++round) {
    for (const NewSession& session : sessions) EXPECT_TRUE(lives(session));
  }
}

TEST_F(SessionsTest, AChangeByAnotherProcessIsNoticedWithinASecond) {
  const NewSession session = sign_in(technician_);
  ASSERT_TRUE(lives(session));
  auto other = Access::open(folder_, clock_, settings_);
  ASSERT_TRUE(other.ok());
  ASSERT_TRUE((*other)->reset_pin(technician_.id, kOtherPin, "machine").ok());
  clock_.pass(kSecond);
  EXPECT_FALSE(lives(session));
  sign_in(technician_, kOtherPin);
}

TEST_F(SessionsTest, AUseOfAKnownSessionWaitsForNoWriter) {
  const NewSession session = sign_in(technician_);
  ASSERT_TRUE(lives(session));
  // Another process holds the file for writing: a use that had to write would wait and fail.
  auto holder =
      sqlite::Database::open((folder_ / "access.db").string(), sqlite::Mode::kReadWriteCreate);
  ASSERT_TRUE(holder.ok());
  auto held = sqlite::Transaction::begin(*holder);
  ASSERT_TRUE(held.ok());
  for (int i = 0; i < 50; ++i) {
    clock_.pass(kSecond);
    EXPECT_TRUE(lives(session));
  }
}

TEST_F(SessionsTest, LivesOutOfRangeAreRefused) {
  Settings settings = settings_;
  settings.sessions.manager.idle_ms = 0;
  EXPECT_EQ(Access::open(folder_, clock_, settings).error().code, base::ErrorCode::kInvalid);
  settings = settings_;
  settings.sessions.per_person_max = 0;
  EXPECT_EQ(Access::open(folder_, clock_, settings).error().code, base::ErrorCode::kInvalid);
}

}  // namespace
}  // namespace benchwarden::access
