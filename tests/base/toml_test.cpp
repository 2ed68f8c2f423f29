#include "base/toml.h"

#include <gtest/gtest.h>

namespace benchwarden::base {
namespace {

TEST(Toml, NamesFileAndLineOfASyntaxFault) {
  const auto parsed = parse_toml("a = 1\nb = = 2\n", "forms/x.toml");
  ASSERT_FALSE(parsed.ok());
  EXPECT_EQ(parsed.error().front().line, 2);
  EXPECT_EQ(format_faults(parsed.error()).substr(0, 15), "forms/x.toml:2:");
}

TEST(Toml, NamesTheLineAtWhichTheLibraryStumbles) {
  for (const char* text : {"a = 1\n[=\n", "a = 1\n[ ?b]\nc = 2\n", "a = 1\n[[=]]", "\n[\n["}) {
    const auto parsed = parse_toml(text, "packs/x.toml");
    ASSERT_FALSE(parsed.ok()) << text;
    EXPECT_EQ(parsed.error().front().line, 2) << text;
    EXPECT_FALSE(parsed.error().front().reason.empty());
  }
}

TEST(Toml, RefusesLettersOutsideOfQuotes) {
  for (const char* text : {"\u0349l3", "a = 1\n\u00E9 = 2", "a = \u0416", "[\u00E9]"}) {
    EXPECT_FALSE(parse_toml(text, "x").ok()) << text;
  }
  EXPECT_EQ(parse_toml("a = \"\u00E9\"", "x")->members.at("a").text, "\u00E9");
}

TEST(Toml, RefusesFloatsAndDates) {
  EXPECT_FALSE(parse_toml("a = 1.5", "x").ok());
  EXPECT_FALSE(parse_toml("a = 2026-11-25", "x").ok());
}

TEST(TomlReader, CollectsEveryFaultWithItsLine) {
  const Toml table = *parse_toml("a = 1\nb = \"x\"\nlist = [\"p\", 2]\nextra = true\n", "x.toml");
  FileFaults faults;
  TomlReader reader(table, "x.toml", faults);
  EXPECT_EQ(reader.text("a"), "");
  EXPECT_EQ(reader.text("b"), "x");
  EXPECT_EQ(reader.text("c"), "");
  EXPECT_EQ(reader.integer_or("d", 7), 7);
  EXPECT_EQ(reader.texts("list"), std::vector<std::string>{"p"});
  reader.finish();
  ASSERT_EQ(faults.size(), 4U);
  EXPECT_EQ(faults[0].reason, "'a' must be text");
  EXPECT_EQ(faults[0].line, 1);
  EXPECT_EQ(faults[1].reason, "'c' is missing");
  EXPECT_EQ(faults[2].line, 3);
  EXPECT_EQ(faults[3].reason, "'extra' is not known here");
  EXPECT_EQ(faults[3].line, 4);
}

TEST(TomlReader, ReadsNestedTables) {
  const Toml table =
      *parse_toml("[[field]]\nname = \"a\"\n[[field]]\nname = \"b\"\n[one]\non = true\n", "x");
  FileFaults faults;
  TomlReader reader(table, "x", faults);
  const auto fields = reader.tables("field");
  ASSERT_EQ(fields.size(), 2U);
  EXPECT_EQ(TomlReader(*fields[1], "x", faults).text("name"), "b");
  const Toml* one = reader.table("one");
  ASSERT_NE(one, nullptr);
  EXPECT_TRUE(TomlReader(*one, "x", faults).boolean_or("on", false));
  EXPECT_EQ(reader.table("two"), nullptr);
  reader.finish();
  EXPECT_TRUE(faults.empty());
}

}  // namespace
}  // namespace benchwarden::base
