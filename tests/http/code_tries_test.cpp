#include "http/code_tries.h"

#include <gtest/gtest.h>

namespace benchwarden::http {
namespace {

using std::chrono::seconds;

class CodeTries : public ::testing::Test {
 protected:
  int taken(const std::string& peer, int tries) {
    int count = 0;
    for (int i = 0; i < tries; ++i) count += code_try_refusal(tries_, peer, now_) ? 0 : 1;
    return count;
  }
  RateLimits tries_{kCodeTries};
  RateLimits::Time now_{};
};

TEST_F(CodeTries, AreFiveOfAnAddressAndThenOneEveryHalfMinute) {
  EXPECT_EQ(taken("192.168.7.20", 100), 5);
  const auto refusal = code_try_refusal(tries_, "192.168.7.20", now_);
  ASSERT_TRUE(refusal.has_value());
  EXPECT_EQ(refusal->status, 429);
  EXPECT_EQ(refusal->headers.back(), (std::pair<std::string, std::string>("Retry-After", "30")));
  now_ += seconds(30);
  EXPECT_EQ(taken("192.168.7.20", 100), 1);
}

TEST_F(CodeTries, OfOneAddressTakeNoneFromAnother) {
  taken("192.168.7.20", 100);
  EXPECT_EQ(taken("192.168.7.21", 1), 1);
}

TEST_F(CodeTries, OfTheMachineItselfAreNotCounted) { EXPECT_EQ(taken("127.0.0.1", 100), 100); }

}  // namespace
}  // namespace benchwarden::http
