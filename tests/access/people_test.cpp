#include "access/people.h"

#include <string>

#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

using base::ErrorCode;
using PeopleTest = AccessTest;

TEST(PersonId, IsOpaqueAndHasOneSpelling) {
  EXPECT_EQ(person_id(12), "p12");
  EXPECT_EQ(person_number("p12"), 12);
  for (const char* id : {"", "p", "12", "p0", "p012", "p-1", "p1x", "q1", "p9999999999999999999"}) {
    EXPECT_FALSE(person_number(id).has_value()) << id;
  }
}

TEST(RoleName, GoesThereAndBack) {
  for (const Role role : {Role::kTechnician, Role::kManager, Role::kInspector}) {
    EXPECT_EQ(role_from_name(role_name(role)), role);
  }
  EXPECT_FALSE(role_from_name("Manager").has_value());
  EXPECT_FALSE(role_from_name("").has_value());
}

TEST_F(PeopleTest, GetIdsInOrderThatAreNeverGivenTwice) {
  EXPECT_EQ(add("Bench A").id, "p1");
  EXPECT_EQ(add("Bench B", Role::kInspector).id, "p2");
  ASSERT_TRUE(access_->deactivate("p2", "p1").ok());
  reopen();
  EXPECT_EQ(add("Bench B").id, "p3");
  const auto people = access_->people();
  ASSERT_TRUE(people.ok());
  ASSERT_EQ(people->size(), 3U);
  EXPECT_FALSE(people->at(1).active);
  EXPECT_EQ(people->at(1).role, Role::kInspector);
  EXPECT_TRUE(people->at(2).active);
}

TEST_F(PeopleTest, ARefusedPersonIsNotEntered) {
  const auto try_name = [&](const std::string& name) {
    const auto added = access_->add_person(name, Role::kTechnician, kPin, "machine");
    EXPECT_FALSE(added.ok()) << name;
    return added.ok() ? ErrorCode::kNotFound : added.error().code;
  };
  EXPECT_EQ(try_name(""), ErrorCode::kInvalid);
  EXPECT_EQ(try_name(" "), ErrorCode::kInvalid);
  EXPECT_EQ(try_name("Bench A "), ErrorCode::kInvalid);
  EXPECT_EQ(try_name("Bench\nA"), ErrorCode::kInvalid);
  EXPECT_EQ(try_name("Bench \xff"), ErrorCode::kInvalid);
  EXPECT_EQ(try_name(std::string(81, 'x')), ErrorCode::kInvalid);
  const auto weak = access_->add_person("Bench A", Role::kTechnician, "123456", "machine");
  ASSERT_FALSE(weak.ok());
  EXPECT_EQ(weak.error().code, ErrorCode::kInvalid);
  const auto unsaid = access_->add_person("Bench A", Role::kTechnician, kPin, "");
  ASSERT_FALSE(unsaid.ok()) << "who did it must be said";
  EXPECT_EQ(access_->people()->size(), 0U);
}

TEST_F(PeopleTest, AnActiveNameIsTakenAndAFormerOneIsFree) {
  const Person person = add("Bench A");
  const auto second = access_->add_person("Bench A", Role::kTechnician, kPin, "machine");
  ASSERT_FALSE(second.ok());
  EXPECT_EQ(second.error().code, ErrorCode::kConflict);
  ASSERT_TRUE(access_->deactivate(person.id, "machine").ok());
  add("Bench A");
}

TEST_F(PeopleTest, NamesMayHoldAnyLetters) {
  const Person person = add("Zo\u00eb \u0141uczak");
  EXPECT_EQ(access_->person(person.id)->name, "Zo\u00eb \u0141uczak");
  add(std::string(80, 'x'));
}

TEST_F(PeopleTest, UnknownIdsAreNotFound) {
  EXPECT_EQ(access_->person("p1").error().code, ErrorCode::kNotFound);
  EXPECT_EQ(access_->deactivate("p1", "machine").error().code, ErrorCode::kNotFound);
  EXPECT_EQ(access_->reset_pin("p1", kPin, "machine").error().code, ErrorCode::kNotFound);
}

TEST_F(PeopleTest, ANewPinReplacesTheOldOne) {
  const Person person = add("Bench A");
  ASSERT_TRUE(access_->reset_pin(person.id, kOtherPin, "machine").ok());
  EXPECT_EQ(refusal(person.id, kPin).reason, SignInRefusal::Reason::kWrong);
  sign_in(person, kOtherPin);
}

TEST_F(PeopleTest, ARefusedNewPinChangesNothing) {
  const Person person = add("Bench A");
  const NewSession session = sign_in(person);
  EXPECT_EQ(access_->reset_pin(person.id, "111111", "machine").error().code, ErrorCode::kInvalid);
  EXPECT_EQ(access_->reset_pin(person.id, kOtherPin, "not an id").error().code,
            ErrorCode::kInvalid);
  EXPECT_TRUE(access_->session(session.token).ok());
  sign_in(person);
}

TEST_F(PeopleTest, AnInactivePersonGetsNoNewPin) {
  const Person person = add("Bench A");
  ASSERT_TRUE(access_->deactivate(person.id, "machine").ok());
  EXPECT_EQ(access_->reset_pin(person.id, kOtherPin, "machine").error().code, ErrorCode::kConflict);
}

TEST_F(PeopleTest, ChangesAreListedWithWhoMadeThem) {
  const Person person = add("Bench A", Role::kManager);
  clock_.pass(kSecond);
  ASSERT_TRUE(access_->reset_pin(person.id, kOtherPin, "machine").ok());
  add("Office", Role::kManager);
  ASSERT_TRUE(access_->deactivate(person.id, person.id).ok());
  const auto list = access_->changes();
  ASSERT_TRUE(list.ok());
  ASSERT_EQ(list->size(), 4U);
  EXPECT_EQ(list->at(0).what, "deactivated");
  EXPECT_EQ(list->at(0).by, person.id);
  EXPECT_EQ(list->at(2).what, "pin-reset");
  EXPECT_EQ(list->at(2).by, "machine");
  EXPECT_EQ(list->at(2).person, person.id);
  EXPECT_EQ(list->at(2).at, clock_.now());
  EXPECT_EQ(list->at(3).what, "person-added");
}

TEST_F(PeopleTest, AnInactivePersonIsActivatedAgainWithTheSamePin) {
  const Person person = add("Bench A");
  ASSERT_TRUE(access_->deactivate(person.id, "machine").ok());
  ASSERT_TRUE(access_->activate(person.id, "machine").ok());
  EXPECT_TRUE(access_->person(person.id)->active);
  sign_in(person);
  EXPECT_EQ(access_->changes()->front().what, "activated");
  ASSERT_TRUE(access_->activate(person.id, "machine").ok());
  EXPECT_EQ(access_->changes()->size(), 3U) << "what changes nothing is no change";
  EXPECT_EQ(access_->activate("p9", "machine").error().code, ErrorCode::kNotFound);
}

TEST_F(PeopleTest, NobodyIsActivatedUnderANameThatIsTakenMeanwhile) {
  const Person former = add("Bench A");
  ASSERT_TRUE(access_->deactivate(former.id, "machine").ok());
  add("Bench A");
  EXPECT_EQ(access_->activate(former.id, "machine").error().code, ErrorCode::kConflict);
  EXPECT_FALSE(access_->person(former.id)->active);
}

TEST_F(PeopleTest, TheLastActiveManagerStays) {
  const Person first = add("Office", Role::kManager);
  add("Bench A");
  const auto refused = access_->deactivate(first.id, "machine");
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::kConflict);
  EXPECT_NE(refused.error().detail.find("last active manager"), std::string::npos);
  EXPECT_TRUE(access_->person(first.id)->active);
  const Person second = add("Office 2", Role::kManager);
  EXPECT_TRUE(access_->deactivate(first.id, "machine").ok());
  EXPECT_EQ(access_->deactivate(second.id, "machine").error().code, ErrorCode::kConflict);
}

TEST_F(PeopleTest, IdsThatAreTakenElsewhereAreLeftOut) {
  ASSERT_TRUE(access_->leave_out_ids({"p7", "p12", "p3", "machine", "p012", ""}).ok());
  EXPECT_EQ(add("Bench A").id, "p13");
  ASSERT_TRUE(access_->leave_out_ids({"p5"}).ok());
  EXPECT_EQ(add("Bench B").id, "p14");
  ASSERT_TRUE(access_->leave_out_ids({}).ok());
  reopen();
  EXPECT_EQ(add("Bench C").id, "p15");
}

TEST_F(PeopleTest, OnlyTheNewestChangesAreKept) {
  settings_.changes_kept = 3;
  reopen();
  for (int i = 0; i < 5; ++i) {
    const auto untold = access_->untold_changes();
    ASSERT_TRUE(untold.ok());
    for (const UntoldChange& change : *untold) {
      ASSERT_TRUE(access_->mark_told(change.number).ok());
    }
    add("Bench " + std::to_string(i));
  }
  const auto list = access_->changes();
  ASSERT_TRUE(list.ok());
  ASSERT_EQ(list->size(), 3U);
  EXPECT_EQ(list->front().person, "p5");
}

TEST_F(PeopleTest, AreErasedOnceInactiveAndLeaveTheirIdAlone) {
  const Person person = add("Quentin Marsh-Ferrers");
  add("Bench B");
  EXPECT_EQ(access_->erase(person.id, "machine").error().code, ErrorCode::kConflict);
  EXPECT_EQ(access_->erase("p9", "machine").error().code, ErrorCode::kNotFound);
  ASSERT_TRUE(access_->deactivate(person.id, "machine").ok());
  ASSERT_TRUE(access_->erase(person.id, "machine").ok());
  ASSERT_TRUE(access_->erase(person.id, "machine").ok()) << "once more changes nothing";
  EXPECT_EQ(access_->person(person.id)->name, "");
  EXPECT_EQ(access_->activate(person.id, "machine").error().code, ErrorCode::kConflict);
  EXPECT_EQ(access_->changes()->front().what, "erased");
  EXPECT_EQ(add("Bench C").id, "p3");
  EXPECT_EQ(stored_bytes().find("Quentin"), std::string::npos);
}

}  // namespace
}  // namespace benchwarden::access
