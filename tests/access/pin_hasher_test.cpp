#include "access/pin_hasher.h"

#include <gtest/gtest.h>

#include <atomic>
#include <thread>
#include <utility>
#include <vector>

#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

class PinHasherTest : public AccessTest {
 protected:
  Pepper pepper() {
    auto loaded = Pepper::load(folder_, Pepper::IfMissing::kRefuse);
    EXPECT_TRUE(loaded.ok());
    return *std::move(loaded);
  }
};

TEST_F(PinHasherTest, MatchesOnlyTheSamePin) {
  PinHasher hasher(pepper(), quick_settings().hash_cost);
  const auto slot = hasher.take_slot();
  ASSERT_TRUE(slot);
  const auto hash = hasher.hash(*slot, kPin);
  ASSERT_TRUE(hash.ok());
  EXPECT_TRUE(hasher.matches(*slot, *hash, kPin));
  EXPECT_FALSE(hasher.matches(*slot, *hash, kOtherPin));
  EXPECT_FALSE(hasher.matches(*slot, *hash, ""));
  EXPECT_FALSE(hasher.matches(*slot, "not a hash", kPin));
  EXPECT_EQ(hasher.made(), 5U);
}

TEST_F(PinHasherTest, TheSamePinIsHashedDifferentlyEachTime) {
  PinHasher hasher(pepper(), quick_settings().hash_cost);
  const auto slot = hasher.take_slot();
  EXPECT_NE(*hasher.hash(*slot, kPin), *hasher.hash(*slot, kPin));
}

TEST_F(PinHasherTest, AnotherPepperMatchesNothing) {
  PinHasher hasher(pepper(), quick_settings().hash_cost);
  const auto slot = hasher.take_slot();
  const auto hash = hasher.hash(*slot, kPin);
  access_.reset();
  std::filesystem::remove(folder_ / "pepper");
  reopen();  // nobody is entered: a new pepper is made
  PinHasher other(pepper(), quick_settings().hash_cost);
  const auto other_slot = other.take_slot();
  EXPECT_FALSE(other.matches(*other_slot, *hash, kPin));
}

TEST_F(PinHasherTest, TheStandInLooksLikeAHashAndMatchesNoPin) {
  for (const HashCost& cost : {HashCost{}, quick_settings().hash_cost}) {
    PinHasher hasher(pepper(), cost);
    const auto slot = hasher.take_slot();
    const auto hash = hasher.hash(*slot, kPin);
    ASSERT_TRUE(hash.ok());
    const std::string stand_in = hasher.stand_in();
    EXPECT_EQ(stand_in.size(), hash->size());
    const std::size_t salt = hash->find("p=1$") + 4;
    EXPECT_EQ(stand_in.substr(0, salt), hash->substr(0, salt));
    // The library reads it whole before it says so; what it cannot read it would not hash for.
    EXPECT_FALSE(hasher.is_outdated(stand_in));
    EXPECT_TRUE(hasher.is_outdated(stand_in.substr(0, stand_in.size() - 1) + "!"));
    EXPECT_FALSE(hasher.matches(*slot, stand_in, kPin));
    EXPECT_FALSE(hasher.matches(*slot, stand_in, ""));
    EXPECT_NE(stand_in, hasher.stand_in());
  }
}

TEST_F(PinHasherTest, TheRealCostIsArgon2idThreePassesOver64MiB) {
  PinHasher hasher(pepper(), HashCost{});
  const auto slot = hasher.take_slot();
  const auto hash = hasher.hash(*slot, kPin);
  ASSERT_TRUE(hash.ok());
  EXPECT_EQ(hash->rfind("$argon2id$v=19$m=65536,t=3,p=1$", 0), 0U) << *hash;
  EXPECT_TRUE(hasher.matches(*slot, *hash, kPin));
  EXPECT_FALSE(hasher.matches(*slot, *hash, kOtherPin));
  EXPECT_FALSE(hasher.is_outdated(*hash));
  EXPECT_TRUE(PinHasher(pepper(), quick_settings().hash_cost).is_outdated(*hash));
}

TEST_F(PinHasherTest, AtMostTwoAreHashedAtOnceHoweverManySignIn) {
  settings_.hash_cost.memory_bytes = std::size_t{4} * 1024 * 1024;
  reopen();
  const Person person = add("Bench A");
  std::vector<std::thread> threads;
  std::atomic<int> signed_in = 0;
  for (int t = 0; t < 8; ++t) {
    threads.emplace_back([&] {
      if (access_->sign_in(person.id, {Secret::Kind::kPin, kPin}, from(kAddress)).ok()) ++signed_in;
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(signed_in, 8) << "waiting in line is no failure";
  EXPECT_LE(access_->hash_load().most_at_once, 2);
}

TEST_F(PinHasherTest, WhoFindsTheLineFullOrClosedIsToldToComeAgain) {
  HashCost cost = quick_settings().hash_cost;
  cost.at_once_max = 1;
  cost.waiting_max = 0;
  PinHasher hasher(pepper(), cost);
  auto held = hasher.take_slot();
  ASSERT_TRUE(held);
  EXPECT_FALSE(hasher.take_slot());
  held.reset();
  EXPECT_TRUE(hasher.take_slot());
  access_->turn_away();
  EXPECT_EQ(refusal("p99", kPin).reason, SignInRefusal::Reason::kBusy);
}

TEST_F(PinHasherTest, WhoWaitedTooLongIsToldToComeAgain) {
  const Person person = add("Bench A");
  settings_.hash_cost = HashCost{64, std::size_t{16} * 1024 * 1024, 1, 0};
  reopen();
  ASSERT_EQ(refusal(person.id, kOtherPin).reason, SignInRefusal::Reason::kWrong);
  std::atomic<int> busy = 0;
  std::atomic<int> others = 0;
  std::vector<std::thread> threads;
  for (int t = 0; t < 4; ++t) {
    threads.emplace_back([&] {
      const auto session = access_->sign_in("p99", {Secret::Kind::kPin, kPin}, from(kAddress));
      ++(session.error().reason == SignInRefusal::Reason::kBusy ? busy : others);
      if (session.error().reason == SignInRefusal::Reason::kBusy) {
        EXPECT_EQ(session.error().retry_after_s, 1);
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_GE(busy, 1);
  EXPECT_GE(others, 1);
}

}  // namespace
}  // namespace benchwarden::access
