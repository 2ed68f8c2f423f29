#include "print/font_metrics.h"

#include <gtest/gtest.h>

#include "print/sample.h"

namespace benchwarden::print {
namespace {

TEST(FontMetrics, KnowsTheAdvancesOfDejaVuSans) {
  // From the font's own table: digit 1303, M 1767, space 651 of 2048 units.
  EXPECT_EQ(sample_metrics().width("0", points(10)), 6360);
  EXPECT_EQ(sample_metrics().width("M", points(10)), 8620);
  EXPECT_EQ(sample_metrics().width(" ", points(10)), 3170);
  EXPECT_EQ(sample_metrics().width("0M ", points(10)), 6360 + 8620 + 3170);
}

TEST(FontMetrics, GivesAllDigitsOneWidth) {
  for (char32_t digit = U'1'; digit <= U'9'; ++digit) {
    EXPECT_EQ(sample_metrics().width_of(digit, points(9)),
              sample_metrics().width_of(U'0', points(9)));
  }
}

TEST(FontMetrics, KnowsWhatTheFontLacks) {
  EXPECT_TRUE(sample_metrics().covers(U'Ł'));
  EXPECT_FALSE(sample_metrics().covers(U'漢'));
  EXPECT_FALSE(sample_metrics().covers(0x1F600));
  EXPECT_EQ(sample_metrics().width("漢", points(10)), 0);
}

TEST(FontMetrics, RefusesWhatIsNoFont) {
  EXPECT_FALSE(FontMetrics::read(""));
  EXPECT_FALSE(FontMetrics::read("no font at all, but long enough to hold a header"));
}

TEST(FontMetrics, RefusesAFontCutShortAnywhere) {
  const std::string_view font = sample_font();
  for (std::size_t part = 0; part < 16; ++part) {
    EXPECT_FALSE(FontMetrics::read(font.substr(0, font.size() * part / 64))) << part;
  }
}

// DejaVu Sans has an "x" of 1120 and capitals of 1493 of its 2048 units, by its own
// outlines, looked up by another script through another map of characters (format 12).
TEST(FontMetrics, KnowsAtWhichSizeLettersAreHighEnough) {
  const FontMetrics& font = sample_metrics();
  EXPECT_NEAR(static_cast<double>(font.size_for_x_height(points(1120))), 2'048'000, 4'000);
  EXPECT_NEAR(static_cast<double>(font.size_for_cap_height(points(1493))), 2'048'000, 4'000);
  // Rounded up: never a letter lower than asked for.
  EXPECT_GE(font.size_for_x_height(1000) * 1120, 1000 * 2048);
}

}  // namespace
}  // namespace benchwarden::print
