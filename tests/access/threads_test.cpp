#include <atomic>
#include <string>
#include <thread>
#include <vector>

#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

using Reason = SignInRefusal::Reason;

class ThreadsTest : public AccessTest {
 protected:
  /// Runs `work(number)` in so many threads and waits for all.
  template <class Work>
  void in_threads(int count, Work work) {
    std::vector<std::thread> threads;
    for (int t = 0; t < count; ++t) threads.emplace_back(work, t);
    for (std::thread& thread : threads) thread.join();
  }
};

TEST_F(ThreadsTest, GuessesAtOnceGetNoMoreTriesThanOneAfterTheOther) {
  const Person person = add("Bench A");
  std::atomic<int> compared = 0;
  in_threads(8, [&](int) {
    for (int i = 0; i < 10; ++i) {
      const auto session =
          access_->sign_in(person.id, {Secret::Kind::kPin, kOtherPin}, from(kAddress));
      if (!session.ok() && session.error().reason == Reason::kWrong) ++compared;
    }
  });
  EXPECT_EQ(compared, 5);
  EXPECT_EQ(refusal(person.id, kPin).retry_after_s, 30);
}

TEST_F(ThreadsTest, PeopleAddedAtOnceGetDifferentIds) {
  in_threads(4, [&](int t) {
    for (int i = 0; i < 5; ++i) add("Bench " + std::to_string(t * 10 + i));
  });
  const auto people = access_->people();
  ASSERT_TRUE(people.ok());
  ASSERT_EQ(people->size(), 20U);
  EXPECT_EQ(people->back().id, "p20");
}

TEST_F(ThreadsTest, OnlyOneOfTwoWithTheSetUpCodeIsFirst) {
  // Slow enough that all have shown the code before the first is entered.
  settings_.hash_cost.passes = 32;
  settings_.hash_cost.memory_bytes = std::size_t{16} * 1024 * 1024;
  reopen();
  const auto code = access_->setup_code();
  ASSERT_TRUE(code.ok() && code->has_value());
  std::atomic<int> made = 0;
  std::atomic<int> late = 0;
  in_threads(4, [&](int t) {
    const auto person = access_->first_manager(**code, "Office " + std::to_string(t), kPin);
    if (person.ok()) {
      ++made;
    } else if (person.error().code == base::ErrorCode::kConflict) {
      ++late;
    }
  });
  EXPECT_EQ(made, 1);
  EXPECT_EQ(late, 3);
  EXPECT_EQ(access_->people()->size(), 1U);
}

TEST_F(ThreadsTest, NoSessionOutlivesANewPinWhateverElseGoesOn) {
  const Person person = add("Bench A");
  settings_.sessions.cached_max = 4;
  reopen();
  std::vector<NewSession> sessions;
  for (int i = 0; i < 8; ++i) sessions.push_back(sign_in(person));
  std::atomic<bool> stop = false;
  std::thread users([&] {
    while (!stop) {
      for (const NewSession& session : sessions) static_cast<void>(access_->session(session.token));
    }
  });
  std::thread time([&] {
    while (!stop) clock_.pass(7);
  });
  EXPECT_TRUE(access_->reset_pin(person.id, kOtherPin, "machine").ok());
  for (const NewSession& session : sessions) EXPECT_FALSE(access_->session(session.token).ok());
  stop = true;
  users.join();
  time.join();
}

TEST_F(ThreadsTest, ASignInThatBeganBeforeANewPinDoesNotSucceedAfterIt) {
  auto quick = Access::open(folder_, clock_, settings_);
  ASSERT_TRUE(quick.ok());
  settings_.hash_cost.passes = 64;
  settings_.hash_cost.memory_bytes = std::size_t{16} * 1024 * 1024;
  reopen();
  const Person person = add("Bench A");
  const auto before = access_->hash_load().made;
  std::thread slow(
      [&] { EXPECT_EQ(refusal(person.id, kPin).reason, SignInRefusal::Reason::kWrong); });
  while (access_->hash_load().made == before) std::this_thread::yield();
  EXPECT_TRUE((*quick)->reset_pin(person.id, kOtherPin, "machine").ok());
  slow.join();
  EXPECT_EQ(number("SELECT count(*) FROM session"), 0);
}

TEST_F(ThreadsTest, SigningInUsingAndOutFromManyThreadsAgree) {
  std::vector<Person> people;
  for (int t = 0; t < 4; ++t) people.push_back(add("Bench " + std::to_string(t)));
  std::atomic<int> faults = 0;
  in_threads(4, [&](int t) {
    const Person& person = people[static_cast<std::size_t>(t)];
    for (int i = 0; i < 10; ++i) {
      const auto session = access_->sign_in(person.id, {Secret::Kind::kPin, kPin}, from(kAddress));
      if (!session.ok()) {
        ++faults;
        continue;
      }
      const auto found = access_->session(session->token);
      if (!found.ok() || found->person != person.id) ++faults;
      if (!access_->sign_out(session->token).ok()) ++faults;
      if (access_->session(session->token).ok()) ++faults;
    }
  });
  EXPECT_EQ(faults, 0);
  EXPECT_EQ(number("SELECT count(*) FROM session"), 0);
}

}  // namespace
}  // namespace benchwarden::access
