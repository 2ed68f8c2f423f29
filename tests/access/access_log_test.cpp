#include "access/access_log.h"

#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

class AccessLogTest : public AccessTest {
 protected:
  AccessLog whole() {
    const auto log = access_->access_log(base::Instant{0}, base::Instant{clock_.now().ms + kHour});
    EXPECT_TRUE(log.ok());
    return log.ok() ? *log : AccessLog{};
  }
  std::vector<UntoldChange> untold() { return *access_->untold_changes(); }
};

TEST_F(AccessLogTest, CountsSignInsAndRefusalsByWhy) {
  const Person person = add("Bench A");
  sign_in(person);
  sign_in(person);
  fail_times(person, 5);
  refusal(person.id, kPin);
  refusal("p99", kPin);
  const AccessLog log = whole();
  EXPECT_EQ(
      log.counts,
      (AccessCounts{{"locked-out", 1}, {"sign-in", 2}, {"unknown-person", 1}, {"wrong-pin", 5}}));
  EXPECT_EQ(log.lines, 9U);
  EXPECT_EQ(log.digest.size(), 64U);
}

TEST_F(AccessLogTest, KeepsFewLinesAndAllCounts) {
  settings_.refusals_kept = 3;
  reopen();
  for (int i = 0; i < 20; ++i) refusal("p99", kPin);
  ASSERT_TRUE(access_
                  ->note_refused_requests({{clock_.now(), "host", "10.0.0.7"}},
                                          {{clock_.now(), "host", 1'000}})
                  .ok());
  const AccessLog log = whole();
  EXPECT_EQ(log.lines, 4U);
  EXPECT_EQ(log.counts, (AccessCounts{{"host", 1'000}, {"unknown-person", 20}}));
  EXPECT_EQ(access_->refusals()->front().reason, "host");
  EXPECT_EQ(access_->refusals()->front().address, "10.0.0.7");
}

TEST_F(AccessLogTest, NoiseOfStrangersPushesNoWrongPinOut) {
  settings_.refusals_kept = 3;
  reopen();
  const Person person = add("Bench A");
  refusal(person.id, kOtherPin);
  for (int i = 0; i < 20; ++i) refusal("p99", kPin);
  const auto refusals = access_->refusals();
  EXPECT_EQ(refusals->size(), 4U);
  EXPECT_EQ(refusals->back().reason, "wrong-pin");
}

TEST_F(AccessLogTest, DigestChangesWithEveryLine) {
  const Person person = add("Bench A");
  sign_in(person);
  const std::string before = whole().digest;
  EXPECT_EQ(whole().digest, before);
  refusal("p99", kPin);
  EXPECT_NE(whole().digest, before);
}

TEST_F(AccessLogTest, SaysWhenCountsBeginAndForgetsThem) {
  EXPECT_FALSE(access_->first_counted()->has_value());
  refusal("p99", kPin);
  const auto first = access_->first_counted();
  ASSERT_TRUE(first.ok() && *first);
  EXPECT_LE((*first)->ms, clock_.now().ms);
  EXPECT_GT((*first)->ms, clock_.now().ms - 15 * kMinute);
  ASSERT_TRUE(access_->forget_counts(base::Instant{clock_.now().ms + kHour}).ok());
  EXPECT_FALSE(access_->first_counted()->has_value());
}

TEST_F(AccessLogTest, ChangesWaitInOrderUntilTheyAreTold) {
  const Person manager = add("Office", Role::kManager);
  const auto token = access_->make_token("Stock list", TokenScope::kReads,
                                         base::Instant{clock_.now().ms + 24 * kHour}, manager.id);
  ASSERT_TRUE(token.ok());
  const auto changes = untold();
  ASSERT_EQ(changes.size(), 2U);
  EXPECT_EQ(changes[0].what, "person-added");
  EXPECT_EQ(changes[0].role, "manager");
  EXPECT_EQ(changes[1].what, "token-made");
  EXPECT_EQ(changes[1].thing, token->token.id);
  EXPECT_EQ(changes[1].scope, "reads");
  EXPECT_EQ(changes[1].until->ms, token->token.ends_at.ms);
  EXPECT_EQ(changes[1].role, std::nullopt);
  ASSERT_TRUE(access_->mark_told(changes[0].number).ok());
  reopen();
  ASSERT_EQ(untold().size(), 1U);
  EXPECT_EQ(untold()[0].entry, changes[1].entry);
}

TEST_F(AccessLogTest, WhatIsUntoldIsKeptHoweverShortTheList) {
  settings_.changes_kept = 1;
  reopen();
  for (const char* name : {"A", "B", "C"}) add(name);
  EXPECT_EQ(untold().size(), 3U);
  for (const UntoldChange& change : untold()) ASSERT_TRUE(access_->mark_told(change.number).ok());
  add("D");
  EXPECT_EQ(access_->changes()->size(), 1U);
}

}  // namespace
}  // namespace benchwarden::access
