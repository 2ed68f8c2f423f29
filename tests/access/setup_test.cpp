#include <set>
#include <string>
#include <vector>

#include "access/access_fixture.h"
#include "access/token.h"

namespace benchwarden::access {
namespace {

using base::ErrorCode;

class SetupTest : public AccessTest {
 protected:
  SetupTest() {
    settings_.setup_tries = 5;
    reopen();
  }
  std::string new_code() {
    auto code = access_->setup_code();
    EXPECT_TRUE(code.ok() && code->has_value());
    return code->value_or("");
  }
  ErrorCode refused(const std::string& code) {
    const auto person = access_->first_manager(code, "Office", kPin);
    EXPECT_FALSE(person.ok());
    return person.ok() ? ErrorCode::kNotFound : person.error().code;
  }
};

TEST(SetupCode, HasEightCharactersThatDoNotLookAlike) {
  std::set<std::string> seen;
  for (int i = 0; i < 200; ++i) {
    const std::string code = new_code();
    EXPECT_EQ(code.size(), 8U);
    EXPECT_EQ(code.find_first_not_of("23456789ABCDEFGHJKMNPQRSTVWXYZ"), std::string::npos) << code;
    seen.insert(code);
  }
  EXPECT_EQ(seen.size(), 200U);
}

TEST(SetupCode, MayBeTypedInAnyCaseWithBlanksAndHyphens) {
  EXPECT_EQ(tidy_code(" abcd-23 4k"), "ABCD234K");
  EXPECT_EQ(tidy_code("ABCD_23"), "ABCD_23");
}

TEST_F(SetupTest, TheRightCodeMakesTheFirstManagerOnce) {
  const std::string code = new_code();
  const auto person = access_->first_manager(code, "Office", kPin);
  ASSERT_TRUE(person.ok()) << person.error().detail;
  EXPECT_EQ(person->id, "p1");
  EXPECT_EQ(person->role, Role::kManager);
  sign_in(*person);
  EXPECT_EQ(refused(code), ErrorCode::kConflict);
  EXPECT_EQ(access_->people()->size(), 1U);
  EXPECT_EQ(access_->changes()->front().by, "setup");
}

TEST_F(SetupTest, ACodeIsGivenOnlyWhileNobodyIsEntered) {
  new_code();
  add("Bench A");
  const auto code = access_->setup_code();
  ASSERT_TRUE(code.ok());
  EXPECT_FALSE(code->has_value());
  EXPECT_EQ(number("SELECT count(*) FROM setup_code"), 0);
}

TEST_F(SetupTest, WithoutACodeNoneIsRight) { EXPECT_EQ(refused(""), ErrorCode::kForbidden); }

TEST_F(SetupTest, ANewCodeReplacesTheOneBefore) {
  const std::string first = new_code();
  const std::string second = new_code();
  EXPECT_EQ(refused(first), ErrorCode::kForbidden);
  EXPECT_TRUE(access_->first_manager(second, "Office", kPin).ok());
}

TEST_F(SetupTest, TheCodeOutlivesARestart) {
  const std::string code = new_code();
  reopen();
  EXPECT_TRUE(access_->first_manager(code, "Office", kPin).ok());
}

TEST_F(SetupTest, FourWrongTriesLeaveItValid) {
  const std::string code = new_code();
  for (int i = 0; i < 2; ++i) EXPECT_EQ(refused("WRONG"), ErrorCode::kForbidden);
  reopen();
  for (int i = 0; i < 2; ++i) EXPECT_EQ(refused("WRONG"), ErrorCode::kForbidden);
  EXPECT_TRUE(access_->first_manager(code, "Office", kPin).ok());
}

TEST_F(SetupTest, FiveWrongTriesSpendIt) {
  const std::string code = new_code();
  for (int i = 0; i < 5; ++i) EXPECT_EQ(refused("WRONG"), ErrorCode::kForbidden);
  EXPECT_EQ(refused(code), ErrorCode::kForbidden);
  EXPECT_TRUE(access_->first_manager(new_code(), "Office", kPin).ok());
}

TEST_F(SetupTest, TheNextCodeIsShownWhenOneIsSpent) {
  std::vector<std::string> shown;
  settings_.show_setup_code = [&](const std::string& code) { shown.push_back(code); };
  reopen();
  const std::string code = new_code();
  for (int i = 0; i < 4; ++i) refused("WRONG");
  EXPECT_TRUE(shown.empty());
  clock_.pass(kMinute);
  refused("WRONG");
  ASSERT_EQ(shown.size(), 1U);
  EXPECT_NE(shown.front(), code);
  EXPECT_EQ(refused(code), ErrorCode::kForbidden);
  EXPECT_TRUE(access_->first_manager(shown.front(), "Office", kPin).ok());
}

TEST_F(SetupTest, CodesAreShownOnceAMinuteHoweverManyAreTried) {
  std::vector<std::string> shown;
  settings_.show_setup_code = [&](const std::string& code) { shown.push_back(code); };
  reopen();
  new_code();
  for (int i = 0; i < 1'000; ++i) refused("WRONG");
  EXPECT_TRUE(shown.empty());
  clock_.pass(kMinute);
  for (int i = 0; i < 1'000; ++i) refused("WRONG");
  ASSERT_EQ(shown.size(), 1U);
  clock_.pass(kMinute);
  refused("WRONG");
  ASSERT_EQ(shown.size(), 2U);
  EXPECT_TRUE(access_->first_manager(shown.back(), "Office", kPin).ok());
}

TEST_F(SetupTest, AHundredWrongTriesOfAStrangerLeaveItValid) {
  settings_.setup_tries = Settings{}.setup_tries;
  reopen();
  const std::string code = new_code();
  for (int i = 0; i < 100; ++i) refused("WRONG");
  EXPECT_TRUE(access_->first_manager(code, "Office", kPin).ok());
}

TEST_F(SetupTest, AWeakPinOrNameCostsNoTry) {
  const std::string code = new_code();
  for (int i = 0; i < 10; ++i) {
    EXPECT_EQ(access_->first_manager("WRONG", "Office", "123456").error().code,
              ErrorCode::kInvalid);
    EXPECT_EQ(access_->first_manager("WRONG", "", kPin).error().code, ErrorCode::kInvalid);
  }
  EXPECT_TRUE(access_->first_manager(code, "Office", kPin).ok());
}

}  // namespace
}  // namespace benchwarden::access
