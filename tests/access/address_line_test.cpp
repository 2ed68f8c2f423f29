#include "access/address_line.h"

#include <gtest/gtest.h>

#include <utility>

#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

TEST(AddressLine, LetsOneAddressHaveItsNumberAndOthersTheirs) {
  AddressLine line(1);
  auto first = line.join("192.0.2.66");
  ASSERT_TRUE(first);
  EXPECT_FALSE(line.join("192.0.2.66"));
  EXPECT_TRUE(line.join("192.0.2.10"));
  first.reset();
  EXPECT_TRUE(line.join("192.0.2.66"));
}

TEST(AddressLine, NeverRefusesLoopback) {
  AddressLine line(1);
  for (const char* address : {"127.0.0.1", "::1", "::ffff:127.0.0.1"}) {
    const auto first = line.join(address);
    EXPECT_TRUE(line.join(address)) << address;
  }
}

TEST(AddressLine, APlaceThatMovedIsLeftOnce) {
  AddressLine line(2);
  auto first = line.join("192.0.2.66");
  const auto second = line.join("192.0.2.66");
  { const AddressLine::Place moved = *std::move(first); }
  first.reset();
  const auto third = line.join("192.0.2.66");
  EXPECT_TRUE(third);
  EXPECT_FALSE(line.join("192.0.2.66"));
}

using AddressLineTest = AccessTest;

TEST_F(AddressLineTest, ASecondSignInFromOneAddressIsRefusedUnhashed) {
  const Person person = add("Bench A");
  settings_.hash_cost.per_address_max = 0;
  reopen();
  const auto before = access_->hash_load().made;
  const auto refused = refusal(person.id, kPin, "192.0.2.66");
  EXPECT_EQ(refused.reason, SignInRefusal::Reason::kOneAtATime);
  EXPECT_EQ(refused.retry_after_s, 1);
  EXPECT_EQ(access_->hash_load().made, before);
  sign_in(person, kPin, "127.0.0.1");
}

}  // namespace
}  // namespace benchwarden::access
