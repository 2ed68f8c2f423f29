#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

class SessionList : public AccessTest {
 protected:
  std::vector<ListedSession> listed() {
    auto sessions = access_->sessions();
    EXPECT_TRUE(sessions.ok());
    return sessions.ok() ? *std::move(sessions) : std::vector<ListedSession>{};
  }
  std::string paired(const std::string& name) {
    const auto made = access_->begin_pairing(name, manager_.id);
    EXPECT_TRUE(made.ok());
    const auto device = access_->pair_device(made->code);
    EXPECT_TRUE(device.ok());
    return device->device.id;
  }

  Person manager_ = add("Office", Role::kManager);
  Person technician_ = add("Bench A");
};

TEST_F(SessionList, TellsWhoseEachIsFromWhereAndSinceWhen) {
  const std::string device = paired("Tablet 1");
  const std::int64_t began = clock_.now().ms;
  const NewSession here = sign_in(manager_);
  clock_.pass(kMinute);
  const auto there = access_->sign_in(technician_.id, {Secret::Kind::kPin, kPin},
                                      {Place::kDevice, "10.0.0.7", device});
  ASSERT_TRUE(there.ok());
  const auto sessions = listed();
  ASSERT_EQ(sessions.size(), 2U);
  EXPECT_EQ(sessions[0].id, there->session.id);
  EXPECT_EQ(sessions[0].person, technician_.id);
  EXPECT_EQ(sessions[0].place, Place::kDevice);
  EXPECT_EQ(sessions[0].device, device);
  EXPECT_EQ(sessions[0].device_name, "Tablet 1");
  EXPECT_EQ(sessions[0].began_at.ms, began + kMinute);
  EXPECT_EQ(sessions[1].id, here.session.id);
  EXPECT_EQ(sessions[1].place, Place::kMachine);
  EXPECT_EQ(sessions[1].device, std::nullopt);
  EXPECT_NE(sessions[0].id, sessions[1].id);
}

TEST_F(SessionList, GivesNoIdThatLetsAnybodyIn) {
  const NewSession session = sign_in(technician_);
  EXPECT_FALSE(access_->session(session.session.id).ok());
  EXPECT_EQ(access_->session(session.token)->id, session.session.id);
}

TEST_F(SessionList, EndsOneAndLeavesTheOthers) {
  const NewSession first = sign_in(technician_);
  const NewSession second = sign_in(technician_);
  ASSERT_TRUE(access_->session(first.token).ok());
  ASSERT_TRUE(access_->session(second.token).ok());
  ASSERT_TRUE(access_->end_session(first.session.id, manager_.id).ok());
  EXPECT_FALSE(access_->session(first.token).ok());
  EXPECT_TRUE(access_->session(second.token).ok());
  EXPECT_EQ(access_->end_session(first.session.id, manager_.id).error().code,
            base::ErrorCode::kNotFound);
  const auto changes = access_->changes();
  ASSERT_TRUE(changes.ok());
  EXPECT_EQ(changes->front().what, "session-ended");
  EXPECT_EQ(changes->front().by, manager_.id);
  EXPECT_EQ(changes->front().thing, first.session.id);
}

TEST_F(SessionList, OfOnesOwnIsNoChange) {
  const NewSession session = sign_in(technician_);
  ASSERT_TRUE(access_->end_session(session.session.id, technician_.id).ok());
  EXPECT_EQ(access_->changes()->front().what, "person-added");
}

TEST_F(SessionList, LeavesOutWhatHasEnded) {
  const NewSession session = sign_in(technician_);
  ASSERT_TRUE(access_->sign_out(session.token).ok());
  sign_in(technician_);
  clock_.pass(4 * kHour + kMinute);
  EXPECT_TRUE(listed().empty());
}

TEST_F(SessionList, EndsWithThePairingOfItsDevice) {
  const std::string device = paired("Tablet 1");
  const auto there = access_->sign_in(technician_.id, {Secret::Kind::kPin, kPin},
                                      {Place::kDevice, "10.0.0.7", device});
  const NewSession here = sign_in(technician_);
  ASSERT_TRUE(access_->session(there->token).ok());
  ASSERT_TRUE(access_->end_device(device, manager_.id).ok());
  EXPECT_FALSE(access_->session(there->token).ok());
  EXPECT_TRUE(access_->session(here.token).ok());
}

TEST_F(SessionList, GivesNoIdTwice) {
  const std::string first = sign_in(technician_).session.id;
  ASSERT_TRUE(access_->end_session(first, technician_.id).ok());
  EXPECT_NE(sign_in(technician_).session.id, first);
}

}  // namespace
}  // namespace benchwarden::access
