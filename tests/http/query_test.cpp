#include "http/query.h"

#include <gtest/gtest.h>

namespace benchwarden::http {
namespace {

TEST(Query, ReadsNamedValuesInOrder) {
  const auto query = parse_query("kind=oil-drained&subject=container%2Fw1&empty=&flag");
  ASSERT_TRUE(query.ok());
  EXPECT_EQ(
      query->items(),
      (Query::Items{
          {"kind", "oil-drained"}, {"subject", "container/w1"}, {"empty", ""}, {"flag", ""}}));
  ASSERT_NE(query->find("subject"), nullptr);
  EXPECT_EQ(*query->find("subject"), "container/w1");
  EXPECT_EQ(query->find("absent"), nullptr);
}

TEST(Query, TakesAPlusForASpaceAsFormsDo) {
  const auto query = parse_query("a=1+2%2B3");
  ASSERT_TRUE(query.ok());
  EXPECT_EQ(*query->find("a"), "1 2+3");
}

TEST(Query, IsEmptyForNothing) {
  const auto query = parse_query("");
  ASSERT_TRUE(query.ok());
  EXPECT_TRUE(query->items().empty());
}

TEST(Query, RefusesANameGivenTwice) {
  EXPECT_FALSE(parse_query("a=1&a=1").ok());
  EXPECT_FALSE(parse_query("a=1&%61=2").ok());
}

TEST(Query, TakesThirtyTwoNamesAndNoMore) {
  std::string text = "a";
  for (int i = 1; i < 32; ++i) text += "&a" + std::to_string(i);
  ASSERT_TRUE(parse_query(text).ok());
  EXPECT_EQ(parse_query(text + "&b").error().detail, "The query gives more than 32 names.");
}

TEST(Query, RefusesBadEncodingControlsAndNamelessValues) {
  for (const std::string bad : {"a=%", "a=%4", "a=%zz", "a=%00", "a=%0A", "a=%ff", "=1"}) {
    EXPECT_FALSE(parse_query(bad).ok()) << bad;
  }
}

TEST(PathSegments, AreDecodedOneByOne) {
  EXPECT_EQ(path_segments("/"), (std::vector<std::string>{""}));
  EXPECT_EQ(path_segments("/a/b%2Fc/"), (std::vector<std::string>{"a", "b/c", ""}));
  EXPECT_EQ(path_segments("/a+b"), (std::vector<std::string>{"a+b"}));
}

TEST(PathSegments, NeedALeadingSlashAndGoodEncoding) {
  EXPECT_EQ(path_segments(""), std::nullopt);
  EXPECT_EQ(path_segments("a/b"), std::nullopt);
  EXPECT_EQ(path_segments("/a%0d"), std::nullopt);
}

}  // namespace
}  // namespace benchwarden::http
