#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

using Reason = SignInRefusal::Reason;

class Inspections : public AccessTest {
 protected:
  static constexpr std::int64_t kDay = 24 * kHour;
  base::Result<Inspection> give(std::int64_t from_ms, std::int64_t until_ms,
                                InspectionScope scope = InspectionScope::kWaste) {
    const std::int64_t now = clock_.now().ms;
    return access_->give_inspection(
        visitor_.id, {"", scope, base::Instant{now + from_ms}, base::Instant{now + until_ms}},
        manager_.id);
  }
  Person manager_ = add("Office", Role::kManager);
  Person visitor_ = add("Visitor", Role::kInspector);
};

TEST_F(Inspections, LetInspectorsInWhileTheyLastOnly) {
  EXPECT_EQ(refusal(visitor_.id, kPin).reason, Reason::kNoAccess);
  EXPECT_EQ(refusal(visitor_.id, kOtherPin).reason, Reason::kWrong);
  ASSERT_TRUE(give(kDay, 3 * kDay).ok());
  EXPECT_EQ(refusal(visitor_.id, kPin).reason, Reason::kNoAccess);
  clock_.pass(kDay);
  const NewSession session = sign_in(visitor_);
  ASSERT_TRUE(session.session.inspection.has_value());
  EXPECT_EQ(session.session.inspection->scope, InspectionScope::kWaste);
  clock_.pass(2 * kDay - 10 * kMinute);
  const NewSession last = sign_in(visitor_);
  EXPECT_EQ(last.session.expires_at.ms, clock_.now().ms + 10 * kMinute);
  clock_.pass(10 * kMinute - 1);
  EXPECT_TRUE(access_->session(last.token).ok());
  clock_.pass(1);
  EXPECT_FALSE(access_->session(last.token).ok());
  EXPECT_EQ(refusal(visitor_.id, kPin).reason, Reason::kNoAccess);
}

TEST_F(Inspections, ThatWereNotGivenAreNotedAndTheRightPinCountsAsRight) {
  for (int i = 0; i < 20; ++i) {
    EXPECT_EQ(refusal(visitor_.id, kPin).reason, Reason::kNoAccess) << i;
  }
  EXPECT_EQ(access_->refusals()->front().reason, "no-access");
  EXPECT_EQ(access_->refusals()->front().person, visitor_.id);
  const auto log = access_->access_log({0}, base::Instant{clock_.now().ms + kHour});
  EXPECT_EQ(log->counts, (AccessCounts{{"no-access", 20}}));
  ASSERT_TRUE(give(0, 2 * kDay).ok());
  sign_in(visitor_);
}

TEST_F(Inspections, LastThirtyDaysAtMost) {
  EXPECT_TRUE(give(0, 30 * kDay + kHour).ok());  // the clocks went back meanwhile
  EXPECT_EQ(give(0, 31 * kDay).error().code, base::ErrorCode::kForbidden);
  EXPECT_EQ(give(kDay, kDay).error().code, base::ErrorCode::kForbidden);
  EXPECT_EQ(give(-2 * kDay, 0).error().code, base::ErrorCode::kForbidden);
}

TEST_F(Inspections, AreForActiveInspectorsOnly) {
  const base::Instant now = clock_.now();
  const Inspection wanted{"", InspectionScope::kEverything, now, base::Instant{now.ms + kDay}};
  EXPECT_EQ(access_->give_inspection(manager_.id, wanted, manager_.id).error().code,
            base::ErrorCode::kConflict);
  EXPECT_EQ(access_->give_inspection("p99", wanted, manager_.id).error().code,
            base::ErrorCode::kNotFound);
}

TEST_F(Inspections, EndWithTheirSessionsAndSayWhoGaveAndEndedThem) {
  const auto given = give(0, 2 * kDay);
  ASSERT_TRUE(given.ok());
  const NewSession session = sign_in(visitor_);
  ASSERT_TRUE(access_->session(session.token).ok());
  ASSERT_TRUE(access_->end_inspection(visitor_.id, manager_.id).ok());
  EXPECT_FALSE(access_->session(session.token).ok());
  EXPECT_EQ(refusal(visitor_.id, kPin).reason, Reason::kNoAccess);
  EXPECT_TRUE(access_->end_inspection(visitor_.id, manager_.id).ok());
  const auto changes = access_->changes();
  EXPECT_EQ(changes->at(0).what, "inspection-ended");
  EXPECT_EQ(changes->at(1).what, "inspection-given");
  EXPECT_EQ(changes->at(1).thing, given->id);
}

TEST_F(Inspections, AreReplacedByTheNext) {
  ASSERT_TRUE(give(0, 20 * kDay, InspectionScope::kEverything).ok());
  const NewSession before = sign_in(visitor_);
  ASSERT_TRUE(give(0, 2 * kDay, InspectionScope::kCylindersAndTools).ok());
  EXPECT_FALSE(access_->session(before.token).ok());
  EXPECT_EQ(sign_in(visitor_).session.inspection->scope, InspectionScope::kCylindersAndTools);
  clock_.pass(2 * kDay);
  EXPECT_FALSE(access_->inspection_of(visitor_.id)->has_value());
  EXPECT_EQ(refusal(visitor_.id, kPin).reason, Reason::kNoAccess);
}

}  // namespace
}  // namespace benchwarden::access
