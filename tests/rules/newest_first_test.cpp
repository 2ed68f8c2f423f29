#include "rules/newest_first.h"

#include <gtest/gtest.h>

#include "tallies/state_builder.h"

namespace benchwarden::rules {
namespace {

using tallies::BookUnderTest;
using tallies::hour;
using Numbers = std::vector<std::uint64_t>;

entries::Effect tells(const std::string& kind, const std::string& thing) {
  return entries::Notes{thing.empty() ? "" : "tool", thing, {kind, {}}};
}

class NewestFirstTest : public ::testing::Test {
 protected:
  std::uint64_t enter(int hours, const std::string& kind, const std::string& thing) {
    return book_.enter(hour(hours), {tells(kind, thing)});
  }
  Numbers told(const std::string& thing, const std::vector<std::string>& kinds, int now) {
    const Scene scene(book_.state(), hour(now), *base::Zone::find("UTC"));
    Numbers numbers;
    const findings::Subject subject{thing.empty() ? "" : "tool", thing};
    for (const auto* record : told_of(scene, subject, kinds)) numbers.push_back(record->seq);
    return numbers;
  }

  BookUnderTest book_;
};

TEST_F(NewestFirstTest, MergesKindsByTimeWhateverTheOrderOfTheBook) {
  const auto third = enter(3, "look", "t1");
  const auto first = enter(1, "use", "t1");
  const auto second = enter(2, "look", "t1");
  const auto fourth = enter(3, "use", "t1");
  enter(2, "other", "t1");
  enter(2, "look", "t2");
  EXPECT_EQ(told("t1", {"look", "use"}, 9), (Numbers{fourth, third, second, first}));
  EXPECT_EQ(told("t1", {"use"}, 9), (Numbers{fourth, first}));
  EXPECT_EQ(told("t1", {"none"}, 9), Numbers{});
}

TEST_F(NewestFirstTest, PassesOverWhatWasStruckAndWhatHasNotHappened) {
  const auto first = enter(1, "look", "t1");
  const auto struck = enter(2, "look", "t1");
  const auto now = enter(3, "look", "t1");
  enter(4, "look", "t1");
  book_.strike(struck);
  EXPECT_EQ(told("t1", {"look"}, 3), (Numbers{now, first}));
}

TEST_F(NewestFirstTest, FindsWhatIsAboutNoThingByItsKind) {
  const auto first = enter(1, "hold", "");
  const auto second = enter(2, "action-closed", "");
  EXPECT_EQ(told("", {"hold", "action-closed"}, 9), (Numbers{second, first}));
  EXPECT_EQ(told("", {"hold"}, 9), Numbers{first});
}

}  // namespace
}  // namespace benchwarden::rules
