#include <gmock/gmock.h>

#include <vector>

#include "access/access_fixture.h"

namespace benchwarden::access {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

class CalendarFeedTest : public AccessTest {
 protected:
  Person office_ = add("Office", Role::kManager);
  Person other_ = add("Other office", Role::kManager);

  std::string made(const Person& person) {
    const auto feed = access_->make_calendar_feed(person.id);
    EXPECT_TRUE(feed.ok());
    return feed ? feed->secret : "";
  }
  bool opens(const std::string& secret) { return access_->check_calendar_secret(secret).ok(); }
  /// Newest first: "p1 by p1: what".
  std::vector<std::string> changes() {
    std::vector<std::string> lines;
    const auto all = access_->changes();
    for (const Change& change : *all) {
      lines.push_back(change.person + " by " + change.by + ": " + change.what);
    }
    return lines;
  }
};

TEST_F(CalendarFeedTest, IsOpenedByItsSecretAlone) {
  const std::string secret = made(office_);
  EXPECT_EQ(secret.size(), 43U);
  EXPECT_TRUE(opens(secret));
  const std::string near = (secret[0] == 'A' ? "B" : "A") + secret.substr(1);
  for (const std::string& wrong :
       {near, secret.substr(1), secret + "A", std::string(), kPin + secret}) {
    const auto refused = access_->check_calendar_secret(wrong);
    ASSERT_FALSE(refused.ok()) << wrong;
    EXPECT_EQ(refused.error().code, base::ErrorCode::kNotFound);
  }
}

TEST_F(CalendarFeedTest, TellsWhetherThereIsOneAndSinceWhen) {
  EXPECT_FALSE(access_->calendar_feed_made_at(office_.id)->has_value());
  made(office_);
  const base::Instant then = clock_.now();
  clock_.pass(kHour);
  EXPECT_EQ(access_->calendar_feed_made_at(office_.id)->value(), then);
  EXPECT_FALSE(access_->calendar_feed_made_at(other_.id)->has_value());
}

TEST_F(CalendarFeedTest, OutlivesARestartAndIsStoredAsAHashOnly) {
  const std::string secret = made(office_);
  EXPECT_THAT(stored_bytes(), Not(HasSubstr(secret)));
  reopen();
  EXPECT_TRUE(opens(secret));
  EXPECT_THAT(stored_bytes(), Not(HasSubstr(secret)));
}

TEST_F(CalendarFeedTest, IsOnePerPersonAndANewOneEndsTheOneBefore) {
  const std::string first = made(office_);
  const std::string others = made(other_);
  const std::string second = made(office_);
  EXPECT_NE(first, second);
  EXPECT_FALSE(opens(first));
  EXPECT_TRUE(opens(second));
  EXPECT_TRUE(opens(others));
  EXPECT_EQ(number("SELECT count(*) FROM calendar_feed"), 2);
}

TEST_F(CalendarFeedTest, EndsWhenItIsRevoked) {
  const std::string secret = made(office_);
  const std::string others = made(other_);
  ASSERT_TRUE(access_->end_calendar_feed(office_.id).ok());
  EXPECT_FALSE(opens(secret));
  EXPECT_TRUE(opens(others));
  EXPECT_FALSE(access_->calendar_feed_made_at(office_.id)->has_value());
  EXPECT_TRUE(access_->end_calendar_feed(office_.id).ok());
}

TEST_F(CalendarFeedTest, EndsForGoodWhenThePersonIsDeactivated) {
  const std::string secret = made(other_);
  ASSERT_TRUE(access_->deactivate(other_.id, office_.id).ok());
  EXPECT_FALSE(opens(secret));
  const auto refused = access_->make_calendar_feed(other_.id);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, base::ErrorCode::kNotFound);
  ASSERT_TRUE(access_->activate(other_.id, office_.id).ok());
  EXPECT_FALSE(opens(secret));
}

TEST_F(CalendarFeedTest, LeavesALineForEachChange) {
  made(office_);
  ASSERT_TRUE(access_->end_calendar_feed(office_.id).ok());
  ASSERT_TRUE(access_->end_calendar_feed(office_.id).ok());
  EXPECT_THAT(changes(),
              ElementsAre("p1 by p1: calendar-feed-ended", "p1 by p1: calendar-feed-made",
                          "p2 by machine: person-added", "p1 by machine: person-added"));
}

TEST_F(CalendarFeedTest, IsMadeForNobodyUnknown) {
  const auto refused = access_->make_calendar_feed("p77");
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, base::ErrorCode::kNotFound);
  EXPECT_TRUE(access_->end_calendar_feed("p77").ok());
}

}  // namespace
}  // namespace benchwarden::access
