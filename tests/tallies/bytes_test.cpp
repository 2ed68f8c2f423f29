#include "tallies/bytes.h"

#include <gtest/gtest.h>

#include <array>
#include <limits>

namespace benchwarden::tallies {
namespace {

constexpr auto kHighest = std::numeric_limits<std::uint64_t>::max();
constexpr auto kMost = std::numeric_limits<std::int64_t>::max();
constexpr auto kLeast = std::numeric_limits<std::int64_t>::min();

TEST(Bytes, AreWrittenInLittleEndianGroupsOfSevenBits) {
  ByteWriter writer;
  writer.number(300);
  writer.signed_number(-1);
  writer.text("ab");
  EXPECT_EQ(writer.bytes(), std::string("\xac\x02\x01\x02"
                                        "ab"));
}

TEST(Bytes, AreReadBackOverTheWholeRange) {
  constexpr std::array<std::uint64_t, 6> kNumbers{0, 1, 127, 128, 1ULL << 63U, kHighest};
  constexpr std::array<std::int64_t, 7> kSigned{0, -1, 1, 63, -64, kMost, kLeast};
  ByteWriter writer;
  for (const auto value : kNumbers) writer.number(value);
  for (const auto value : kSigned) writer.signed_number(value);
  writer.text(std::string("a\0b", 3));
  ByteReader reader(writer.bytes());
  for (const auto value : kNumbers) EXPECT_EQ(reader.number(), value);
  for (const auto value : kSigned) EXPECT_EQ(reader.signed_number(), value);
  EXPECT_EQ(reader.text(), std::string("a\0b", 3));
  EXPECT_TRUE(reader.at_end());
  EXPECT_FALSE(reader.failed());
}

TEST(Bytes, RefuseANumberThatNeverEndsOrIsTooLargeOrPadded) {
  for (const std::string_view bytes :
       {std::string_view(""), std::string_view("\x80", 1),
        std::string_view("\xff\xff\xff\xff\xff\xff\xff\xff\xff\x02", 10),
        std::string_view("\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\x01", 11),
        std::string_view("\x81\x00", 2)}) {
    ByteReader reader(bytes);
    EXPECT_EQ(reader.number(), 0U);
    EXPECT_TRUE(reader.failed()) << bytes.size();
  }
}

TEST(Bytes, RefuseATextOrACountLongerThanWhatIsLeft) {
  ByteReader text(
      "\x03"
      "ab");
  EXPECT_EQ(text.text(), "");
  EXPECT_TRUE(text.failed());
  ByteReader count(
      "\x03"
      "ab");
  EXPECT_EQ(count.count(), 0U);
  EXPECT_TRUE(count.failed());
}

TEST(Bytes, HoldTheirLimitsAndStayFailed) {
  ByteReader reader(std::string_view("\x05\x0b\x01", 3));
  EXPECT_EQ(reader.number_up_to(5), 5U);
  EXPECT_EQ(reader.signed_number_within(5), 0) << "0x0b is -6";
  EXPECT_TRUE(reader.failed());
  EXPECT_EQ(reader.number(), 0U) << "nothing is read after the first fault";
}

}  // namespace
}  // namespace benchwarden::tallies
