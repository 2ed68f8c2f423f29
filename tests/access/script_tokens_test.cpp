#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

class ScriptTokens : public AccessTest {
 protected:
  static constexpr std::int64_t kDay = 24 * kHour;
  base::Result<NewScriptToken> make(const std::string& name, std::int64_t lasts_ms = 30 * kDay) {
    return access_->make_token(name, TokenScope::kReads, base::Instant{clock_.now().ms + lasts_ms},
                               manager_.id);
  }
  bool good(const NewScriptToken& token) { return access_->script_session(token.secret).ok(); }
  Person manager_ = add("Office", Role::kManager);
};

TEST_F(ScriptTokens, ActForTheirMakerAsScripts) {
  const auto made = make("Stock list");
  ASSERT_TRUE(made.ok());
  EXPECT_TRUE(made->secret.starts_with("bwt_"));
  EXPECT_EQ(made->secret.size(), 47U);
  const auto session = access_->script_session(made->secret);
  ASSERT_TRUE(session.ok());
  EXPECT_EQ(session->person, manager_.id);
  EXPECT_EQ(session->role, Role::kManager);
  EXPECT_EQ(session->script, TokenScope::kReads);
  EXPECT_FALSE(session->is_confirmed);
  EXPECT_EQ(session->expires_at.ms, made->token.ends_at.ms);
}

TEST_F(ScriptTokens, EndByThemselvesAreEndedAndEndWithTheirMaker) {
  const auto one = make("One");
  const auto two = make("Two");
  const auto three = make("Three", 2 * kDay);
  ASSERT_TRUE(one.ok() && two.ok() && three.ok());
  clock_.pass(2 * kDay - 1);
  EXPECT_TRUE(good(*three));
  clock_.pass(1);
  EXPECT_FALSE(good(*three));
  EXPECT_TRUE(good(*one));
  ASSERT_TRUE(access_->end_token(one->token.id, manager_.id).ok());
  EXPECT_FALSE(good(*one));
  EXPECT_TRUE(access_->end_token(one->token.id, manager_.id).ok());
  EXPECT_EQ(access_->end_token("t99", manager_.id).error().code, base::ErrorCode::kNotFound);
  add("Other", Role::kManager);
  ASSERT_TRUE(access_->deactivate(manager_.id, "machine").ok());
  EXPECT_FALSE(good(*two));
}

TEST_F(ScriptTokens, LastAYearAtMostAndHaveANameOfTheirOwn) {
  EXPECT_FALSE(make("Long", 366 * kDay + 1).ok());
  EXPECT_TRUE(make("Long", 366 * kDay).ok());
  EXPECT_FALSE(make("Past", 0).ok());
  EXPECT_EQ(make("Long").error().code, base::ErrorCode::kConflict);
  EXPECT_EQ(make(" ").error().code, base::ErrorCode::kInvalid);
  ASSERT_TRUE(access_->end_token("t1", manager_.id).ok());
  EXPECT_TRUE(make("Long").ok());
}

TEST_F(ScriptTokens, AreNoSessionsAndStoredAsHashesOnly) {
  const auto made = make("Stock list");
  EXPECT_FALSE(access_->session(made->secret).ok());
  EXPECT_FALSE(access_->script_session(sign_in(manager_).token).ok());
  EXPECT_FALSE(access_->script_session(made->token.id).ok());
  EXPECT_EQ(stored_bytes().find(made->secret.substr(4)), std::string::npos);
}

TEST_F(ScriptTokens, TellWhenTheyWereUsedLastAndWhoMadeAndEndedThem) {
  const auto made = make("Stock list");
  EXPECT_EQ(access_->tokens()->front().last_used_at, std::nullopt);
  clock_.pass(kHour);
  ASSERT_TRUE(good(*made));
  EXPECT_EQ(access_->tokens()->front().last_used_at->ms, clock_.now().ms);
  ASSERT_TRUE(access_->end_token(made->token.id, manager_.id).ok());
  EXPECT_EQ(access_->tokens()->front().ended_at->ms, clock_.now().ms);
  const auto changes = access_->changes();
  EXPECT_EQ(changes->at(0).what, "token-ended");
  EXPECT_EQ(changes->at(1).what, "token-made");
  EXPECT_EQ(changes->at(1).thing, made->token.id);
}

}  // namespace
}  // namespace benchwarden::access
