#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

using Reason = SignInRefusal::Reason;

class Confirmation : public AccessTest {
 protected:
  bool confirmed(const NewSession& session) {
    const auto found = access_->session(session.token);
    return found.ok() && found->is_confirmed;
  }
  Person manager_ = add("Office", Role::kManager);
};

TEST_F(Confirmation, LastsFiveMinutesFromSigningIn) {
  const NewSession session = sign_in(manager_);
  EXPECT_TRUE(session.session.is_confirmed);
  EXPECT_TRUE(confirmed(session));
  clock_.pass(5 * kMinute - 1);
  EXPECT_TRUE(confirmed(session));
  clock_.pass(1);
  EXPECT_FALSE(confirmed(session));
}

TEST_F(Confirmation, GoesOnUnderAnotherToken) {
  const NewSession before = sign_in(manager_);
  clock_.pass(10 * kMinute);
  const auto after = access_->confirm(before.token, {Secret::Kind::kPin, kPin}, from(kAddress));
  ASSERT_TRUE(after.ok()) << after.error().detail;
  EXPECT_NE(after->token, before.token);
  EXPECT_EQ(after->session.id, before.session.id);
  EXPECT_TRUE(after->session.is_confirmed);
  EXPECT_TRUE(confirmed(*after));
  EXPECT_FALSE(access_->session(before.token).ok());
  EXPECT_EQ(number("SELECT count(*) FROM session"), 1);
}

TEST_F(Confirmation, LengthensNoSession) {
  const NewSession before = sign_in(manager_);
  const std::int64_t began = clock_.now().ms;
  for (int i = 0; i < 19; ++i) {  // 8 h less 5 min, never unused for 30 min
    clock_.pass(25 * kMinute);
    ASSERT_TRUE(access_->session(before.token).ok());
  }
  const auto after = access_->confirm(before.token, {Secret::Kind::kPin, kPin}, from(kAddress));
  ASSERT_TRUE(after.ok());
  EXPECT_EQ(after->session.expires_at.ms, began + 8 * kHour);
}

TEST_F(Confirmation, WantsTheRightPinAndCountsWrongOnes) {
  const NewSession session = sign_in(manager_);
  clock_.pass(6 * kMinute);
  for (int i = 0; i < 5; ++i) {
    const auto wrong =
        access_->confirm(session.token, {Secret::Kind::kPin, kOtherPin}, from(kAddress));
    ASSERT_FALSE(wrong.ok());
    EXPECT_EQ(wrong.error().reason, Reason::kWrong);
  }
  EXPECT_EQ(
      access_->confirm(session.token, {Secret::Kind::kPin, kPin}, from(kAddress)).error().reason,
      Reason::kLockedOut);
  EXPECT_FALSE(confirmed(session));
  EXPECT_EQ(access_->refusals()->size(), 6U);
}

TEST_F(Confirmation, WantsAStandingSessionOfThatPerson) {
  const auto other = access_->add_person("Other", Role::kManager, kOtherPin, "machine");
  ASSERT_TRUE(other.ok());
  const NewSession session = sign_in(manager_);
  EXPECT_FALSE(
      access_->confirm(session.token, {Secret::Kind::kPin, kOtherPin}, from(kAddress)).ok());
  ASSERT_TRUE(access_->sign_out(session.token).ok());
  EXPECT_EQ(
      access_->confirm(session.token, {Secret::Kind::kPin, kPin}, from(kAddress)).error().reason,
      Reason::kWrong);
  EXPECT_FALSE(access_->confirm("", {Secret::Kind::kPin, kPin}, from(kAddress)).ok());
}

TEST_F(Confirmation, OutlivesARestartAndEndsWithAClockSetBack) {
  const NewSession session = sign_in(manager_);
  clock_.pass(kMinute);
  reopen();
  EXPECT_TRUE(confirmed(session));
  clock_.pass(-2 * kMinute);
  EXPECT_FALSE(confirmed(session));
}

}  // namespace
}  // namespace benchwarden::access
