#include "base/json.h"

#include <gtest/gtest.h>

#include <array>

#include "base/sha256.h"
#include "base/text.h"

namespace benchwarden::base {
namespace {

std::string fault_of(std::string_view text) {
  const auto parsed = parse_json(text);
  return parsed.ok() ? "" : parsed.error().detail;
}

TEST(Json, KeepsNumberTokensAndOrderOfMembers) {
  const auto value = parse_json(R"({"b":1.250,"a":[-3,true,null,"x"]})");
  ASSERT_TRUE(value.ok());
  EXPECT_EQ(value->find("b")->number()->token, "1.250");
  EXPECT_EQ(write_json(*value), R"({"b":1.250,"a":[-3,true,null,"x"]})");
  EXPECT_EQ(value->find("c"), nullptr);
}

TEST(Json, RefusesARepeatedMemberByName) {
  EXPECT_NE(fault_of(R"({"id":1,"x":{"y":1},"id":2})").find("'id'"), std::string::npos);
  EXPECT_EQ(fault_of(R"({"a":{"id":1},"b":{"id":2}})"), "");
}

TEST(Json, RefusesNestingBeyondTheLimit) {
  EXPECT_TRUE(parse_json("[[[]]]", 3).ok());
  EXPECT_FALSE(parse_json("[[[[]]]]", 3).ok());
  EXPECT_FALSE(parse_json(std::string(1'000'000, '[')).ok());
}

TEST(Json, RefusesWhatIsNotJson) {
  for (const char* text :
       {"", "{", "{\"a\":}", "[1,]", "nul", "NaN", "{'a':1}", "[1] x", "// a\n1", "\"\xff\"",
        "\"\xc0\xaf\"", "\"\xed\xa0\x80\"", "\"\\ud83d\"", "\"a\nb\"", "\xEF\xBB\xBF{}", "1e999"}) {
    EXPECT_FALSE(parse_json(text).ok()) << text;
  }
}

TEST(Json, ReadsWholeNumbersThatFit) {
  EXPECT_EQ(parse_json("9007199254740993")->integer(), 9007199254740993);
  EXPECT_EQ(parse_json("1.0")->integer(), std::nullopt);
  EXPECT_EQ(parse_json("18446744073709551616")->integer(), std::nullopt);
  EXPECT_EQ(parse_json("\"1\"")->integer(), std::nullopt);
}

// RFC 8785 section 3.2.3, the sorting example: keys in UTF-16 order, values naming their place.
TEST(CanonicalJson, SortsMembersByUtf16CodeUnits) {
  const auto value = parse_json(
      "{\"\\u20ac\":\"Euro Sign\",\"\\r\":\"Carriage Return\",\"\\ufb33\":\"Hebrew Letter Dalet "
      "With Dagesh\",\"1\":\"One\",\"\\ud83d\\ude00\":\"Emoji: Grinning "
      "Face\",\"\\u0080\":\"Control\",\"\\u00f6\":\"Latin Small Letter O With Diaeresis\"}");
  ASSERT_TRUE(value.ok());
  const std::string text = write_canonical_json(*value);
  std::size_t last = 0;
  for (const char* name : {"Carriage Return", "One", "Control", "Latin Small", "Euro Sign",
                           "Emoji: Grinning Face", "Hebrew Letter"}) {
    const std::size_t at = text.find(name);
    ASSERT_NE(at, std::string::npos) << name;
    EXPECT_GT(at, last) << name;
    last = at;
  }
}

// RFC 8785 section 3.2.2.2, string and literal rules of its sample.
TEST(CanonicalJson, WritesTheShortestEscapes) {
  const auto value = parse_json(
      R"({"string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]})");
  ASSERT_TRUE(value.ok());
  EXPECT_EQ(write_canonical_json(*value),
            "{\"literals\":[null,true,false],\"string\":\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}");
}

TEST(JsonPointer, EscapesTildeAndSlash) { EXPECT_EQ(pointer_token("a/b~c"), "a~1b~0c"); }

// FIPS 180-4 example of NIST's "SHA-256" example values: the one-block message "abc".
TEST(Sha256, EqualsThePublishedExample) {
  EXPECT_EQ(to_hex(sha256("abc")),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  const std::array<std::string_view, 3> parts{"a", "", "bc"};
  EXPECT_EQ(sha256(parts), sha256("abc"));
}

TEST(Sha256, ReadsBackItsHexForm) {
  const Sha256Digest digest = sha256("abc");
  EXPECT_EQ(*digest_from_hex(to_hex(digest)), digest);
  EXPECT_FALSE(digest_from_hex("BA").ok());
  EXPECT_FALSE(digest_from_hex(std::string(64, 'g')).ok());
}

TEST(Text, KnowsValidUtf8) {
  EXPECT_TRUE(is_valid_utf8("Öl ½ 😀"));
  for (const char* text :
       {"\xC0\x80", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\x80", "\xE2\x82"}) {
    EXPECT_FALSE(is_valid_utf8(text));
  }
  EXPECT_EQ(count_code_points("Öl ½"), 4U);
}

TEST(Text, FillsNamedPlacesOnly) {
  EXPECT_EQ(fill("{a} and {b} and {c}", {{"a", "1"}, {"b", "{a}"}}), "1 and {a} and {c}");
  EXPECT_EQ(fill("no end {a", {{"a", "1"}}), "no end {a");
}

TEST(Text, KnowsSlugs) {
  for (const char* slug : {"w1", "rag-bin", "n"}) EXPECT_TRUE(is_slug(slug)) << slug;
  for (const char* text : {"", "1w", "W1", "a b", "a/b", "ä", "-a"}) {
    EXPECT_FALSE(is_slug(text)) << text;
  }
  EXPECT_FALSE(is_slug(std::string(41, 'a')));
}

}  // namespace
}  // namespace benchwarden::base
