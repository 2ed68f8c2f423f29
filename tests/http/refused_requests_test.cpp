#include "http/refused_requests.h"

#include <gtest/gtest.h>

#include "http/hand_clock.h"
#include "sqlite/temporary_folder.h"

namespace benchwarden::http {
namespace {

class RefusedRequestsTest : public ::testing::Test {
 protected:
  RefusedRequestsTest() {
    auto opened = access::Access::open(folder_.path(), clock_);
    if (opened) access_ = *std::move(opened);
  }
  [[nodiscard]] access::AccessLog log(base::Instant from, base::Instant until) const {
    return *access_->access_log(from, until);
  }
  testing::TemporaryFolder folder_;
  HandClock clock_;
  std::unique_ptr<access::Access> access_;
  RefusedRequests refused_{clock_};
};

TEST_F(RefusedRequestsTest, AreWrittenLaterOnTheDayTheyWereRefused) {
  const base::Instant then = clock_.now();
  refused_.note("host", "10.0.0.7", "");
  clock_.pass_days(1);
  refused_.note("origin", "10.0.0.7", "");
  EXPECT_TRUE(access_->refusals()->empty());
  ASSERT_TRUE(refused_.write_to(*access_).ok());
  const auto before = log({0}, access::quarter_of(clock_.now()));
  EXPECT_EQ(before.counts, (access::AccessCounts{{"host", 1}}));
  EXPECT_EQ(before.lines, 1U);
  EXPECT_EQ(access_->refusals()->back().at.ms, then.ms);
}

TEST_F(RefusedRequestsTest, OfOneReasonTakeNoLineFromAnother) {
  for (int i = 0; i < 1'000; ++i) refused_.note("host", "10.0.0.7", "");
  refused_.note("wrong-code", "10.0.0.8", "");
  ASSERT_TRUE(refused_.write_to(*access_).ok());
  EXPECT_EQ(access_->refusals()->size(), 51U);
  EXPECT_EQ(access_->refusals()->front().reason, "wrong-code");
}

TEST_F(RefusedRequestsTest, NameThePersonWhoseSessionTheyCameWith) {
  ASSERT_TRUE(access_->add_person("Bench A", access::Role::kTechnician, "274913", "machine").ok());
  refused_.note("role", "10.0.0.7", "p1");
  ASSERT_TRUE(refused_.write_to(*access_).ok());
  EXPECT_EQ(access_->refusals()->front().person, "p1");
}

}  // namespace
}  // namespace benchwarden::http
