#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

using Reason = SignInRefusal::Reason;
using SignInTest = AccessTest;

TEST_F(SignInTest, TheRightPinGivesASessionOfThatPerson) {
  const Person person = add("Bench A", Role::kManager);
  const NewSession made = sign_in(person);
  EXPECT_EQ(made.session.person, person.id);
  EXPECT_EQ(made.session.name, "Bench A");
  EXPECT_EQ(made.session.role, Role::kManager);
  const auto found = access_->session(made.token);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->person, person.id);
  EXPECT_EQ(found->role, Role::kManager);
}

TEST_F(SignInTest, AnotherPersonsPinIsWrong) {
  const Person a = add("Bench A");
  const auto b = access_->add_person("Bench B", Role::kTechnician, kOtherPin, a.id);
  ASSERT_TRUE(b.ok());
  EXPECT_EQ(refusal(a.id, kOtherPin).reason, Reason::kWrong);
  EXPECT_EQ(refusal(b->id, kPin).reason, Reason::kWrong);
}

TEST_F(SignInTest, AnUnknownPersonGetsTheAnswerOfAWrongPinAndCostsTheSameHashing) {
  const Person person = add("Bench A");
  const auto start = access_->hash_load().made;
  const auto wrong = refusal(person.id, kOtherPin);
  const auto after_wrong = access_->hash_load().made;
  const auto unknown = refusal("p99", kOtherPin);
  const auto after_unknown = access_->hash_load().made;
  EXPECT_EQ(after_wrong - start, 1U);
  EXPECT_EQ(after_unknown - after_wrong, 1U);
  EXPECT_EQ(unknown.reason, wrong.reason);
  EXPECT_EQ(unknown.detail, wrong.detail);
  EXPECT_EQ(unknown.retry_after_s, wrong.retry_after_s);
}

TEST_F(SignInTest, TheStandInForUnknownPeopleOpensToNoPin) {
  EXPECT_EQ(refusal("p1", "").reason, Reason::kWrong);
  EXPECT_EQ(refusal("", "").reason, Reason::kWrong);
}

TEST_F(SignInTest, UnknownPeopleAreNeverLockedOut) {
  for (int i = 0; i < 30; ++i) EXPECT_EQ(refusal("p99", kPin).reason, Reason::kWrong);
  const Person person = add("Bench A");
  sign_in(person);
}

TEST_F(SignInTest, OnlyTheExactIdIsTheId) {
  add("Bench A");
  for (const char* id :
       {"1", "p01", "P1", " p1", "p1 ", "p+1", "p-1", "p1'--", "p0", "p99999999999999999999"}) {
    EXPECT_EQ(refusal(id, kPin).reason, Reason::kWrong) << id;
  }
}

TEST_F(SignInTest, AnInactivePersonIsAsUnknown) {
  const Person person = add("Bench A");
  ASSERT_TRUE(access_->deactivate(person.id, "machine").ok());
  const auto before = access_->hash_load().made;
  EXPECT_EQ(refusal(person.id, kPin).reason, Reason::kWrong);
  EXPECT_EQ(access_->hash_load().made - before, 1U);
}

TEST_F(SignInTest, RefusalsAreListedNewestFirstWithPersonTimeAndReason) {
  const Person person = add("Bench A");
  fail_times(person, 5);
  const base::Instant last_wrong = clock_.now();
  clock_.pass(kSecond);
  refusal(person.id, kPin);
  clock_.pass(kSecond);
  refusal("274913", kPin);  // somebody typed the PIN in the wrong place
  const auto list = access_->refusals();
  ASSERT_TRUE(list.ok());
  ASSERT_EQ(list->size(), 7U);
  EXPECT_EQ(list->at(0).reason, "unknown-person");
  EXPECT_FALSE(list->at(0).person.has_value());
  EXPECT_EQ(list->at(0).at, clock_.now());
  EXPECT_EQ(list->at(1).reason, "locked-out");
  EXPECT_EQ(list->at(1).person, person.id);
  EXPECT_EQ(list->at(2).reason, "wrong-pin");
  EXPECT_EQ(list->at(2).person, person.id);
  EXPECT_EQ(list->at(2).at, last_wrong);
}

TEST_F(SignInTest, OnlyTheNewestRefusalsAreKept) {
  settings_.refusals_kept = 10;
  reopen();
  for (int i = 0; i < 25; ++i) {
    clock_.pass(kSecond);
    refusal("p99", kPin);
  }
  const auto list = access_->refusals();
  ASSERT_TRUE(list.ok());
  ASSERT_EQ(list->size(), 10U);
  EXPECT_EQ(list->front().at, clock_.now());
  EXPECT_EQ(list->back().at.ms, clock_.now().ms - 9 * kSecond);
}

TEST_F(SignInTest, AHashOfAnotherCostIsRenewedAtTheNextSignIn) {
  const Person person = add("Bench A");
  settings_.hash_cost.passes = 2;
  reopen();
  const auto start = access_->hash_load().made;
  sign_in(person);
  EXPECT_EQ(access_->hash_load().made - start, 2U) << "one to compare, one to renew";
  sign_in(person);
  EXPECT_EQ(access_->hash_load().made - start, 3U);
}

}  // namespace
}  // namespace benchwarden::access
