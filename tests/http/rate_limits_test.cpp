#include "http/rate_limits.h"

#include <gtest/gtest.h>

namespace benchwarden::http {
namespace {

using std::chrono::milliseconds;

class Rates : public ::testing::Test {
 protected:
  RateLimits limits_{RateSettings{2, 5, 3, true}};
  RateLimits::Time now_{};
  /// How many of so many requests at this moment are paid for.
  int paid(const std::string& key, int asked) {
    int count = 0;
    for (int i = 0; i < asked; ++i) count += limits_.take(key, now_) ? 0 : 1;
    return count;
  }
};

TEST_F(Rates, LetSoManyThroughAtOnceAndThenByTheSecond) {
  EXPECT_EQ(paid("10.0.0.7", 20), 5);
  EXPECT_EQ(limits_.take("10.0.0.7", now_), 1);
  now_ += milliseconds(400);
  EXPECT_EQ(paid("10.0.0.7", 3), 0);
  now_ += milliseconds(100);
  EXPECT_EQ(paid("10.0.0.7", 3), 1);
  now_ += milliseconds(10'000);
  EXPECT_EQ(paid("10.0.0.7", 20), 5);
}

TEST_F(Rates, AreOfEachByItself) {
  EXPECT_EQ(paid("10.0.0.7", 20), 5);
  EXPECT_EQ(paid("d1", 20), 5);
}

TEST_F(Rates, KeepSoManyAndForgetTheOneUnusedForLongest) {
  EXPECT_EQ(paid("a", 5), 5);
  now_ += milliseconds(1);
  EXPECT_EQ(paid("b", 5), 5);
  now_ += milliseconds(1);
  EXPECT_EQ(paid("c", 5), 5);
  EXPECT_EQ(paid("a", 1), 0);  // used now, though refused
  EXPECT_EQ(paid("d", 1), 1);  // in the place of b
  EXPECT_EQ(paid("a", 1), 0);
  EXPECT_EQ(paid("b", 1), 1);
}

TEST_F(Rates, SayHowLongItTakesUntilTheNext) {
  RateLimits slow(RateSettings{0.1, 1, 3, true});
  EXPECT_EQ(slow.take("a", now_), std::nullopt);
  EXPECT_EQ(slow.take("a", now_), 10);
}

}  // namespace
}  // namespace benchwarden::http
