#include <gmock/gmock.h>

#include <cctype>
#include <string>
#include <vector>

#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

using base::ErrorCode;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

class DevicesTest : public AccessTest {
 protected:
  DevicesTest() {
    settings_.pairing_tries = 5;
    reopen();
  }
  static constexpr const char* kName = "Tablet at bench 1";
  Person office_ = add("Office", Role::kManager);

  std::string code(const std::string& name = kName) {
    const auto made = access_->begin_pairing(name, office_.id);
    EXPECT_TRUE(made.ok());
    return made ? made->code : "";
  }
  NewDevice paired(const std::string& name = kName) {
    const auto made = access_->pair_device(code(name));
    EXPECT_TRUE(made.ok());
    return made ? *made : NewDevice{};
  }
  bool pairs(const std::string& typed) {
    const auto made = access_->pair_device(typed);
    EXPECT_TRUE(made.ok() || made.error().code == ErrorCode::kForbidden);
    return made.ok();
  }
  bool is_known(const std::string& secret) { return access_->device(secret).ok(); }
  ErrorCode refused_name(const std::string& name) {
    const auto made = access_->begin_pairing(name, office_.id);
    return made ? ErrorCode::kInternal : made.error().code;
  }
  std::int64_t tries_left() { return number("SELECT tries_left FROM pairing_code"); }
};

TEST_F(DevicesTest, ACodePairsOneDeviceOnce) {
  const std::string once = code();
  EXPECT_EQ(once.size(), 8U);
  const auto made = access_->pair_device(once);
  ASSERT_TRUE(made.ok());
  EXPECT_EQ(made->device.id, "d1");
  EXPECT_EQ(made->device.name, kName);
  EXPECT_EQ(made->secret.size(), 43U);
  EXPECT_FALSE(pairs(once));
  EXPECT_EQ(access_->devices()->size(), 1U);
}

TEST_F(DevicesTest, ACodeMayBeTypedInAnyCaseWithBlanksAndHyphens) {
  std::string typed = code();
  for (char& c : typed) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  EXPECT_TRUE(pairs(" " + typed.substr(0, 4) + "-" + typed.substr(4)));
}

TEST_F(DevicesTest, ACodeEndsAfterTenMinutes) {
  const auto made = access_->begin_pairing(kName, office_.id);
  EXPECT_EQ(made->ends_at.ms, clock_.now().ms + 10 * kMinute);
  clock_.pass(10 * kMinute - 1);
  EXPECT_TRUE(pairs(made->code));
  const std::string late = code("Tablet at bench 2");
  clock_.pass(10 * kMinute);
  EXPECT_FALSE(pairs(late));
}

TEST_F(DevicesTest, ACodeIsNotGoodForLongerWhereTheClockIsSetBack) {
  const std::string made = code();
  clock_.pass(-1);
  EXPECT_FALSE(pairs(made));
}

TEST_F(DevicesTest, FourWrongTriesLeaveACodeAndFiveSpendIt) {
  const std::string first = code();
  for (int i = 0; i < 4; ++i) EXPECT_FALSE(pairs("WRONG"));
  EXPECT_EQ(tries_left(), 1);
  reopen();
  EXPECT_FALSE(pairs(""));
  EXPECT_EQ(number("SELECT count(*) FROM pairing_code"), 0);
  EXPECT_FALSE(pairs(first));
  EXPECT_TRUE(pairs(code()));
}

TEST_F(DevicesTest, AHundredWrongTriesOfAStrangerLeaveACode) {
  settings_.pairing_tries = Settings{}.pairing_tries;
  reopen();
  const std::string left = code();
  for (int i = 0; i < 100; ++i) EXPECT_FALSE(pairs("WRONG"));
  EXPECT_TRUE(pairs(left));
}

TEST_F(DevicesTest, ANewCodeReplacesTheOneBeforeAndHasAllItsTries) {
  const std::string first = code();
  EXPECT_FALSE(pairs("WRONG"));
  const std::string second = code("Tablet at bench 2");
  EXPECT_EQ(tries_left(), 5);
  EXPECT_FALSE(pairs(first));
  const auto made = access_->pair_device(second);
  ASSERT_TRUE(made.ok());
  EXPECT_EQ(made->device.name, "Tablet at bench 2");
}

TEST_F(DevicesTest, ACodeIsNoSetUpCodeAndEndsWithItsMaker) {
  add("Other office", Role::kManager);
  const std::string left = code();
  ASSERT_TRUE(access_->deactivate(office_.id, "p2").ok());
  EXPECT_FALSE(pairs(left));
  const auto nobody = access_->begin_pairing(kName, office_.id);
  ASSERT_FALSE(nobody.ok());
  EXPECT_EQ(nobody.error().code, ErrorCode::kNotFound);
}

TEST_F(DevicesTest, WantsANameThatNoPairedDeviceHas) {
  paired();
  EXPECT_EQ(refused_name(kName), ErrorCode::kConflict);
  EXPECT_EQ(refused_name(""), ErrorCode::kInvalid);
  EXPECT_EQ(refused_name(std::string(81, 'x')), ErrorCode::kInvalid);
  ASSERT_TRUE(access_->end_device("d1", office_.id).ok());
  EXPECT_EQ(paired().device.id, "d2");
}

TEST_F(DevicesTest, IsKnownByItsSecretAloneAndStoredAsAHash) {
  const std::string typed = code();
  const auto made = access_->pair_device(typed);
  ASSERT_TRUE(made.ok());
  const std::string& secret = made->secret;
  const std::string near = (secret[0] == 'A' ? "B" : "A") + secret.substr(1);
  for (const std::string& wrong : {near, secret.substr(1), secret + "A", std::string()}) {
    EXPECT_FALSE(is_known(wrong)) << wrong;
  }
  reopen();
  const auto found = access_->device(secret);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->id, "d1");
  EXPECT_THAT(stored_bytes(), Not(HasSubstr(secret)));
  EXPECT_THAT(stored_bytes(), Not(HasSubstr(typed)));
}

TEST_F(DevicesTest, StaysListedOncePairingHasEnded) {
  const NewDevice first = paired();
  const NewDevice second = paired("Tablet at bench 2");
  clock_.pass(kHour);
  ASSERT_TRUE(access_->end_device("d1", office_.id).ok());
  EXPECT_FALSE(is_known(first.secret));
  EXPECT_TRUE(is_known(second.secret));
  const base::Instant ended = clock_.now();
  clock_.pass(kHour);
  EXPECT_TRUE(access_->end_device("d1", office_.id).ok());
  const auto devices = access_->devices();
  ASSERT_EQ(devices->size(), 2U);
  EXPECT_EQ(devices->front().ended_at, ended);
  EXPECT_EQ(devices->front().paired_by, office_.id);
  EXPECT_FALSE(devices->back().ended_at);
  for (const char* unknown : {"d3", "d0", "d01", "p1", ""}) {
    const auto status = access_->end_device(unknown, office_.id);
    ASSERT_FALSE(status.ok()) << unknown;
    EXPECT_EQ(status.error().code, ErrorCode::kNotFound);
  }
}

TEST_F(DevicesTest, WritesWhenItWasLastSeenOnceAMinute) {
  const std::string secret = paired().secret;
  const base::Instant then = clock_.now();
  clock_.pass(kMinute - 1);
  EXPECT_TRUE(is_known(secret));
  EXPECT_EQ(access_->devices()->front().last_seen_at, then);
  clock_.pass(1);
  EXPECT_TRUE(is_known(secret));
  EXPECT_EQ(access_->devices()->front().last_seen_at, clock_.now());
}

TEST_F(DevicesTest, LeavesALineForEachChange) {
  paired();
  ASSERT_TRUE(access_->end_device("d1", office_.id).ok());
  ASSERT_TRUE(access_->end_device("d1", office_.id).ok());
  std::vector<std::string> lines;
  const auto changes = access_->changes();
  for (const Change& change : *changes) {
    lines.push_back(change.by + ": " + change.what + " " + change.device.value_or("-"));
  }
  EXPECT_THAT(lines, ElementsAre("p1: device-ended Tablet at bench 1",
                                 "p1: device-paired Tablet at bench 1", "machine: person-added -"));
}

TEST_F(DevicesTest, LeavesOutTheIdsThatSignedInTheBook) {
  ASSERT_TRUE(access_->leave_out_devices({"d2", "d7", "x9", "p12"}).ok());
  EXPECT_EQ(paired().device.id, "d8");
  ASSERT_TRUE(access_->leave_out_devices({"d3"}).ok());
  EXPECT_EQ(paired("Tablet at bench 2").device.id, "d9");
  EXPECT_EQ(add("Bench A").id, "p2");
}

}  // namespace
}  // namespace benchwarden::access
