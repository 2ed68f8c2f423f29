#include "http/response_headers.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "http/static_files.h"

namespace benchwarden::http {
namespace {

Response tagged() {
  Response response;
  response.headers = {{"ETag", "\"abc\""}};
  response.body = std::string("x");
  return response;
}

TEST(UnlessUnchanged, SaysSoToThoseWhoHoldIt) {
  for (const std::string held : {"\"abc\"", "W/\"abc\"", "\"x\", \"abc\"", "*"}) {
    const Response response = unless_unchanged(tagged(), held);
    EXPECT_EQ(response.status, 304) << held;
    EXPECT_EQ(body_bytes(response), "") << held;
    EXPECT_EQ(response.headers, tagged().headers) << held;
  }
}

TEST(UnlessUnchanged, LeavesAllOthersAlone) {
  for (const std::string held : {"", "\"ab\"", "abc", ","}) {
    EXPECT_EQ(unless_unchanged(tagged(), held).status, 200) << held;
  }
  EXPECT_EQ(unless_unchanged(Response(), "*").status, 200) << "no tag";
  Response missing = tagged();
  missing.status = 404;
  EXPECT_EQ(unless_unchanged(missing, "*").status, 404);
}

TEST(CompleteHeaders, LetsTheResponseReplaceOursOnce) {
  Response response;
  response.headers = {{"cache-control", "private"}, {"Set-Cookie", "a"}, {"Set-Cookie", "b"}};
  const HeaderFields fields = complete_headers(response);
  const auto count = [&](const std::string& name) {
    return std::count_if(fields.begin(), fields.end(),
                         [&](const auto& f) { return f.first == name; });
  };
  EXPECT_EQ(count("Cache-Control"), 0);
  EXPECT_EQ(count("cache-control"), 1);
  EXPECT_EQ(count("Set-Cookie"), 2);
  EXPECT_EQ(count("X-Content-Type-Options"), 1);
}

TEST(CleanFields, HoldNoLineBreak) {
  EXPECT_TRUE(has_clean_fields(tagged()));
  Response split = tagged();
  split.headers.emplace_back("X-Note", "a\r\nSet-Cookie: b");
  EXPECT_FALSE(has_clean_fields(split));
  Response type = tagged();
  type.content_type = "text/plain\n";
  EXPECT_FALSE(has_clean_fields(type));
}

TEST(StaticAnswers, AreTaggedByContentAndKeptAsLongAsTheyMayBe) {
  const StaticAnswers answers({{"/a.js", {"one", "text/javascript"}},
                               {"/b.js", {"two", "text/javascript"}},
                               {"/app.0123.js", {"one", "text/javascript", Caching::kForever}}});
  ASSERT_NE(answers.find("/a.js"), nullptr);
  EXPECT_EQ(answers.find("/c.js"), nullptr);
  // The first digits of SHA-256("one").
  EXPECT_EQ(answers.find("/a.js")->headers,
            (HeaderFields{{"ETag", "\"7692c3ad3540bb80\""}, {"Cache-Control", "no-cache"}}));
  EXPECT_NE(answers.find("/b.js")->headers[0], answers.find("/a.js")->headers[0]);
  EXPECT_EQ(answers.find("/app.0123.js")->headers[1].second, "public, max-age=31536000, immutable");
}

}  // namespace
}  // namespace benchwarden::http
