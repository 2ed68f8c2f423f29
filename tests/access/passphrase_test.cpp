#include "access/access_fixture.h"
#include "access/pin_rules.h"

namespace benchwarden::access {
namespace {

using Reason = SignInRefusal::Reason;

class Passphrase : public AccessTest {
 protected:
  static constexpr const char* kPhrase = "seven tall reeds";
  static constexpr const char* kOther = "nine small reeds";
  static constexpr const char* kFar = "192.168.7.20";

  base::Result<NewSession, SignInRefusal> with(const std::string& text,
                                               std::string_view address = kFar) {
    return access_->sign_in(person_.id, {Secret::Kind::kPassphrase, text}, from(address));
  }
  base::Status<> set(const std::string& text, std::string_view keep = "") {
    return access_->set_passphrase(person_.id, text, keep, person_.id);
  }
  From tablet(const std::string& name) {
    const auto made = access_->begin_pairing(name, person_.id);
    EXPECT_TRUE(made.ok());
    const auto paired = access_->pair_device(made->code);
    EXPECT_TRUE(paired.ok());
    return {Place::kDevice, kFar, paired->device.id};
  }
  Person person_ = add("Office", Role::kManager);
};

TEST_F(Passphrase, LetsInOnceItIsSet) {
  EXPECT_EQ(with(kPhrase).error().reason, Reason::kWrong);
  EXPECT_FALSE(*access_->has_passphrase(person_.id));
  ASSERT_TRUE(set(kPhrase).ok());
  EXPECT_TRUE(*access_->has_passphrase(person_.id));
  const auto session = with(kPhrase);
  ASSERT_TRUE(session.ok());
  EXPECT_EQ(session->session.place, Place::kElsewhere);
  EXPECT_EQ(with(kOther).error().reason, Reason::kWrong);
  ASSERT_TRUE(set(kOther).ok());
  EXPECT_FALSE(with(kPhrase).ok());
  EXPECT_TRUE(with(kOther).ok());
}

TEST_F(Passphrase, IsSetThreeTimesADaySoThatTheBookIsNotFilledWithIt) {
  const std::vector<std::string> phrases{kPhrase, kOther, "eleven bent reeds"};
  for (const std::string& phrase : phrases) ASSERT_TRUE(set(phrase).ok());
  EXPECT_EQ(set(kPhrase).error().code, base::ErrorCode::kConflict);
  EXPECT_TRUE(with(phrases.back()).ok());
  EXPECT_TRUE(access_->set_passphrase(person_.id, kPhrase, "", "machine").ok());
  clock_.pass(24 * kHour);
  EXPECT_TRUE(set(kOther).ok());
}

TEST_F(Passphrase, IsNoPinAndAPinIsNoPassphrase) {
  ASSERT_TRUE(set("274913 274913 805").ok());
  EXPECT_FALSE(with(kPin).ok());
  EXPECT_FALSE(
      access_->sign_in(person_.id, {Secret::Kind::kPin, "274913 274913 805"}, from(kAddress)).ok());
  EXPECT_TRUE(access_->sign_in(person_.id, {Secret::Kind::kPin, kPin}, from(kAddress)).ok());
}

TEST_F(Passphrase, EndsOtherSessionsOfThePersonOnly) {
  const Person other = add("Bench A");
  const NewSession mine = sign_in(person_);
  const NewSession elsewhere = sign_in(person_);
  const NewSession others = sign_in(other);
  ASSERT_TRUE(set(kPhrase, mine.token).ok());
  EXPECT_TRUE(access_->session(mine.token).ok());
  EXPECT_FALSE(access_->session(elsewhere.token).ok());
  EXPECT_TRUE(access_->session(others.token).ok());
  EXPECT_EQ(access_->changes()->front().what, "passphrase-set");
}

TEST_F(Passphrase, IsTakenAwayByANewPin) {
  ASSERT_TRUE(set(kPhrase).ok());
  ASSERT_TRUE(access_->reset_pin(person_.id, kOtherPin, "machine").ok());
  EXPECT_FALSE(with(kPhrase).ok());
  EXPECT_FALSE(*access_->has_passphrase(person_.id));
}

TEST_F(Passphrase, IsStoredAsAHashOnly) {
  ASSERT_TRUE(set(kPhrase).ok());
  EXPECT_EQ(stored_bytes().find(kPhrase), std::string::npos);
  EXPECT_NE(stored_bytes().find("$argon2id$"), std::string::npos);
}

TEST_F(Passphrase, GuessedFromElsewhereShutsNobodyOutOfTabletsAndTheMachine) {
  ASSERT_TRUE(set(kPhrase).ok());
  for (int i = 0; i < 5; ++i) EXPECT_EQ(with(kOther).error().reason, Reason::kWrong);
  EXPECT_EQ(with(kPhrase).error().reason, Reason::kLockedOut);
  EXPECT_EQ(with(kPhrase, "192.168.7.21").error().reason, Reason::kLockedOut);
  // Where the person never was before, too: nobody else can have tried there.
  const From here = tablet("Tablet 1");
  EXPECT_TRUE(access_->sign_in(person_.id, {Secret::Kind::kPin, kPin}, here).ok());
  EXPECT_TRUE(access_->sign_in(person_.id, {Secret::Kind::kPin, kPin}, from(kAddress)).ok());
  EXPECT_EQ(with(kPhrase).error().reason, Reason::kLockedOut);
}

TEST_F(Passphrase, WrongPinsOnOneTabletCountThereAlone) {
  const From one = tablet("Tablet 1");
  const From other = tablet("Tablet 2");
  for (int i = 0; i < 5; ++i) {
    EXPECT_FALSE(access_->sign_in(person_.id, {Secret::Kind::kPin, kOtherPin}, one).ok());
  }
  EXPECT_EQ(access_->sign_in(person_.id, {Secret::Kind::kPin, kPin}, one).error().reason,
            Reason::kLockedOut);
  EXPECT_TRUE(access_->sign_in(person_.id, {Secret::Kind::kPin, kPin}, other).ok());
}

TEST(PassphraseRule, WantsLengthAndDifferentCharacters) {
  EXPECT_TRUE(check_passphrase("seven reeds.").ok());
  EXPECT_TRUE(check_passphrase("öäüßéöäüßéöä").ok());
  EXPECT_TRUE(check_passphrase(std::string(124, 'a') + "bcde").ok());
  for (const std::string& bad :
       {std::string(), std::string("seven reeds"), std::string(129, 'a') + "bcde",
        std::string("abababababababab"), std::string("seven\treeds here"),
        std::string("seven reeds \xff\xfe")}) {
    const auto refused = check_passphrase(bad);
    ASSERT_FALSE(refused.ok()) << bad;
    EXPECT_TRUE(bad.empty() || refused.error().detail.find(bad) == std::string::npos);
  }
}

}  // namespace
}  // namespace benchwarden::access
