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

/// The value of a usual field.
std::string usual(const std::string& name) {
  for (const auto& [field, value] : complete_headers(Response())) {
    if (field == name) return value;
  }
  return "";
}

TEST(CompleteHeaders, LetTheAppOfThisDaemonUseTheCameraAndNothingElse) {
  EXPECT_EQ(usual("Permissions-Policy"), "camera=(self), microphone=(), geolocation=()");
}

TEST(CompleteHeaders, NeedNoLooserPolicyForTheReaderOfCodes) {
  // It is a script of our own without WebAssembly, and the picture of the camera no resource.
  const std::string policy = usual("Content-Security-Policy");
  EXPECT_NE(policy.find("default-src 'none'"), std::string::npos);
  EXPECT_NE(policy.find("script-src 'self';"), std::string::npos);
  for (const std::string looser : {"unsafe", "wasm", "blob:", "media-src", "https:", "*"}) {
    EXPECT_EQ(policy.find(looser), std::string::npos) << looser;
  }
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

TEST(UnlessUnchanged, SaysNothingOfThePackingOfBytesThatAreNotSent) {
  Response packed = tagged();
  packed.headers.emplace_back("Content-Encoding", "gzip");
  EXPECT_EQ(unless_unchanged(packed, "*").headers, tagged().headers);
  EXPECT_EQ(unless_unchanged(packed, "").headers, packed.headers);
}

TEST(StaticAnswers, AreTaggedByContentAndKeptAsLongAsTheyMayBe) {
  const StaticAnswers answers({{"/a.js", {"one", "text/javascript"}},
                               {"/b.js", {"two", "text/javascript"}},
                               {"/app.0123.js", {"one", "text/javascript", Caching::kForever}}});
  const auto headers = [&](const std::string& path) { return answers.find(path)->to("").headers; };
  ASSERT_NE(answers.find("/a.js"), nullptr);
  EXPECT_EQ(answers.find("/c.js"), nullptr);
  // The first digits of SHA-256("one").
  EXPECT_EQ(headers("/a.js"),
            (HeaderFields{{"ETag", "\"7692c3ad3540bb80\""}, {"Cache-Control", "no-cache"}}));
  EXPECT_NE(headers("/b.js")[0], headers("/a.js")[0]);
  EXPECT_EQ(headers("/app.0123.js")[1].second, "public, max-age=31536000, immutable");
}

TEST(StaticAnswers, GoPackedToThoseWhoTakeThem) {
  const StaticAnswers answers(
      {{"/a.js", {"one", "text/javascript", Caching::kRevalidate, "packed"}},
       {"/b.js", {"one", "text/javascript"}}});
  const Response& packed = answers.find("/a.js")->to("gzip, br");
  const Response& plain = answers.find("/a.js")->to("br");
  EXPECT_EQ(body_bytes(packed), "packed");
  EXPECT_EQ(packed.content_type, "text/javascript");
  EXPECT_EQ(body_bytes(plain), "one");
  EXPECT_EQ(plain.headers, (HeaderFields{{"ETag", "\"7692c3ad3540bb80\""},
                                         {"Cache-Control", "no-cache"},
                                         {"Vary", "Accept-Encoding"}}));
  EXPECT_EQ(packed.headers, (HeaderFields{{"ETag", etag_of("packed")},
                                          {"Cache-Control", "no-cache"},
                                          {"Vary", "Accept-Encoding"},
                                          {"Content-Encoding", "gzip"}}));
  EXPECT_EQ(body_bytes(answers.find("/b.js")->to("gzip")), "one");
  EXPECT_EQ(answers.find("/b.js")->to("gzip").headers.size(), 2U);
}

}  // namespace
}  // namespace benchwarden::http
