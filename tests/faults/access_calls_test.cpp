#include <algorithm>
#include <iostream>
#include <set>

#include "access/access_fixture.h"
#include "faults/fault_cases.h"

namespace benchwarden::access {
namespace {

using base::ErrorCode;
using testing::FaultCase;

/// People come, sign in, change and go, with a fault of the disk somewhere.
class AccessCalls : public testing::OnFaultyDisk,
                    public AccessTest,
                    public ::testing::WithParamInterface<FaultCase> {
 protected:
  /// An error of the disk that says what it is about, or none.
  template <class T>
  bool went(const base::Result<T>& answer) {
    if (answer.ok()) return true;
    ++refused_;
    EXPECT_TRUE(answer.error().code == ErrorCode::kUnavailable ||
                answer.error().code == ErrorCode::kDamaged)
        << static_cast<int>(answer.error().code) << ": " << answer.error().detail;
    EXPECT_GT(answer.error().detail.size(), 10U) << answer.error().detail;
    return false;
  }
  bool open_access() {
    access_.reset();
    auto opened = Access::open(folder_, clock_, settings_);
    if (!went(opened)) return false;
    access_ = *std::move(opened);
    return true;
  }
  void enter(const std::string& name, Role role) {
    const auto added = access_->add_person(name, role, kPin, "machine");
    // Of one whose adding failed nobody can tell whether it is there; a name is there once.
    const bool known = !added.ok() && added.error().code == ErrorCode::kConflict;
    if (known || !went(added)) return;
    people_.insert(name);
  }
  std::optional<Person> find(const std::string& name) {
    const auto people = access_->people();
    if (!went(people)) return std::nullopt;
    for (const Person& person : *people) {
      if (person.name == name) return person;
    }
    return std::nullopt;
  }
  /// With the PIN that was set last, and only with that.
  std::optional<NewSession> enter_with(const Person& person, const std::string& pin) {
    auto session = access_->sign_in(person.id, {Secret::Kind::kPin, pin}, from(kAddress));
    if (session.ok()) return *session;
    ++refused_;
    EXPECT_EQ(session.error().reason, SignInRefusal::Reason::kFault) << session.error().detail;
    return std::nullopt;
  }
  void work_and_leave(const std::string& name) {
    const auto person = find(name);
    if (!person || !person->active) return;
    const auto session = enter_with(*person, kPin);
    if (!session) return;
    const auto seen = access_->session(session->token);
    if (went(seen)) {
      EXPECT_EQ(seen->person, person->id);
    }
    if (went(access_->sign_out(session->token))) ended_.insert(session->token);
    const auto other = enter_with(*person, kPin);
    if (!went(access_->deactivate(person->id, "machine"))) return;
    left_.insert(name);
    if (other) ended_.insert(other->token);
  }
  void live() {
    for (const char* name : {"Bench A", "Bench B"}) {
      if (!open_access()) continue;
      enter("Office", Role::kManager);
      enter(name, Role::kTechnician);
      work_and_leave(name);
    }
  }

  void expect_kept() {
    disk_.repair();
    if (access_ == nullptr) reopen();
    for (int time = 0; time < 2; ++time) {
      enter("Office", Role::kManager);
      ASSERT_TRUE(find("Office"));
      EXPECT_TRUE(enter_with(*find("Office"), kPin)) << "whoever is entered signs in again";
      const auto people = access_->people();
      ASSERT_TRUE(people.ok());
      for (const std::string& name : people_) {
        EXPECT_EQ(std::count_if(people->begin(), people->end(),
                                [&](const Person& one) { return one.name == name; }),
                  1)
            << name;
      }
      for (const std::string& name : left_) EXPECT_FALSE(find(name)->active) << name;
      for (const std::string& token : ended_) EXPECT_FALSE(access_->session(token).ok());
      reopen();
    }
  }
  bool try_at(int number, bool lasts) {
    SCOPED_TRACE(std::string(GetParam().name) + (lasts ? " from" : " at") + " call " +
                 std::to_string(number));
    access_.reset();
    testing::put_files({}, folder_);
    people_.clear();
    left_.clear();
    ended_.clear();
    testing::DiskFault fault = GetParam().fault;
    fault.lasts = lasts;
    disk_.arm(fault, number);
    refused_ = 0;
    live();
    const bool reached = disk_.hits() > 0;
    ++runs_;
    lives_refused_ += refused_ > 0 ? 1 : 0;
    gone_on_ += access_ == nullptr ? 0 : 1;
    refused_ = 0;
    expect_kept();
    EXPECT_EQ(refused_, 0) << "an error after the fault was gone";
    return reached;
  }

  std::set<std::string> people_;  ///< of whom it was answered that they are entered
  std::set<std::string> left_;    ///< and that they are no longer active
  std::set<std::string> ended_;   ///< tokens whose end was answered
  int refused_ = 0;
  int runs_ = 0;
  int lives_refused_ = 0;
  int gone_on_ = 0;
};

TEST_P(AccessCalls, EndInAnErrorOrInTheRightAnswer) {
  int last = 0;
  for (const bool lasts : {false, true}) {
    for (int number = 1; try_at(number, lasts) && !HasFailure();
         number += testing::step_of(GetParam())) {
      last = std::max(last, number);
    }
  }
  std::cout << "access, " << GetParam().name << ": " << runs_ << " lives, fault at up to call "
            << last << "; in " << lives_refused_ << " something was refused, in " << gone_on_
            << " the same process went on\n";
  EXPECT_GT(last, 0) << "the fault never happened";
}

INSTANTIATE_TEST_SUITE_P(Faults, AccessCalls, ::testing::ValuesIn(testing::told_faults()),
                         [](const auto& one) { return std::string(one.param.name); });

}  // namespace
}  // namespace benchwarden::access
