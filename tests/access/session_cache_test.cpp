#include "access/session_cache.h"

#include <gtest/gtest.h>

#include <string>

namespace benchwarden::access {
namespace {

base::Sha256Digest token(int number) { return base::sha256("token " + std::to_string(number)); }

CachedSession seen_at(std::int64_t ms, std::int64_t person = 1) {
  return CachedSession{person, {}, base::Instant{1'000}, 100, base::Instant{ms}, base::Instant{ms},
                       {}};
}

TEST(SessionCache, FindsWhatWasPutAndNothingElse) {
  SessionCache cache(4);
  cache.put(token(1), seen_at(10, 7));
  const auto found = cache.touch(token(1), base::Instant{20});
  ASSERT_TRUE(found.has_value());
  EXPECT_EQ(found->person, 7);
  EXPECT_EQ(found->last_seen.ms, 20);
  EXPECT_EQ(found->last_written.ms, 10);
  EXPECT_FALSE(cache.touch(token(2), base::Instant{20}).has_value());
}

TEST(SessionCache, NeverHoldsMoreThanItsBoundAndDropsTheOneUnusedForLongest) {
  SessionCache cache(2);
  cache.put(token(1), seen_at(10));
  cache.put(token(2), seen_at(20));
  ASSERT_TRUE(cache.touch(token(1), base::Instant{30}).has_value());
  cache.put(token(3), seen_at(40));
  EXPECT_EQ(cache.size(), 2U);
  EXPECT_FALSE(cache.touch(token(2), base::Instant{40}).has_value());
  EXPECT_TRUE(cache.touch(token(1), base::Instant{40}).has_value());
}

TEST(SessionCache, OfSizeNoneHoldsNothing) {
  SessionCache cache(0);
  cache.put(token(1), seen_at(10));
  EXPECT_EQ(cache.size(), 0U);
}

TEST(SessionCache, DropsWhatHasEnded) {
  SessionCache cache(4);
  cache.put(token(1), seen_at(10));
  EXPECT_TRUE(cache.touch(token(1), base::Instant{109}).has_value());
  EXPECT_FALSE(cache.touch(token(1), base::Instant{209}).has_value());
  EXPECT_EQ(cache.size(), 0U);
  cache.put(token(2), seen_at(950));
  EXPECT_FALSE(cache.touch(token(2), base::Instant{1'000}).has_value());
}

TEST(SessionCache, AClockSetBackDoesNotUndoAUse) {
  SessionCache cache(4);
  cache.put(token(1), seen_at(500));
  EXPECT_EQ(cache.touch(token(1), base::Instant{400})->last_seen.ms, 500);
  EXPECT_FALSE(cache.touch(token(1), base::Instant{399})) << "by more than it may lie unused";
}

TEST(SessionCache, ForgetsByTokenByPersonAndAltogether) {
  SessionCache cache(8);
  for (int i = 0; i < 4; ++i) cache.put(token(i), seen_at(10, i % 2));
  cache.forget(token(0));
  EXPECT_EQ(cache.size(), 3U);
  cache.forget_person(1);
  EXPECT_EQ(cache.size(), 1U);
  EXPECT_TRUE(cache.touch(token(2), base::Instant{11}).has_value());
  cache.clear();
  EXPECT_EQ(cache.size(), 0U);
}

TEST(SessionCache, RemembersWhenTheLastUseWasWritten) {
  SessionCache cache(4);
  cache.put(token(1), seen_at(10));
  cache.mark_written(token(1), base::Instant{50});
  cache.mark_written(token(2), base::Instant{50});
  EXPECT_EQ(cache.touch(token(1), base::Instant{60})->last_written.ms, 50);
  EXPECT_EQ(cache.size(), 1U);
}

}  // namespace
}  // namespace benchwarden::access
