#include "document/qr_code.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>

namespace benchwarden::document {
namespace {

using Rows = std::vector<std::string>;

constexpr const char* kAddress = "https://shop.example:8417/#/pair/ABCD2345";

Rows rows_of(const std::string& text) {
  const auto rows = qr_code(text);
  EXPECT_TRUE(rows.ok());
  return rows.ok() ? *rows : Rows{};
}

/// Seven modules: a dark ring, a light ring, three by three dark.
bool has_finder(const Rows& rows, std::size_t top, std::size_t left) {
  static const Rows kFinder{"1111111", "1000001", "1011101", "1011101",
                            "1011101", "1000001", "1111111"};
  for (std::size_t i = 0; i < kFinder.size(); ++i) {
    if (rows[top + i].substr(left, 7) != kFinder[i]) return false;
  }
  return true;
}

TEST(QrCode, IsASquareOfDarkAndLightWithThreeFinders) {
  const Rows rows = rows_of(kAddress);
  ASSERT_GE(rows.size(), 21U);
  for (const std::string& row : rows) {
    EXPECT_EQ(row.size(), rows.size());
    EXPECT_EQ(row.find_first_not_of("01"), std::string::npos);
  }
  const std::size_t far = rows.size() - 7;
  EXPECT_TRUE(has_finder(rows, 0, 0));
  EXPECT_TRUE(has_finder(rows, 0, far));
  EXPECT_TRUE(has_finder(rows, far, 0));
  EXPECT_FALSE(has_finder(rows, far, far));
}

TEST(QrCode, IsOfTheSmallestVersionThatHoldsTheTextAtLevelM) {
  // Bytes that versions 1, 2 and 40 hold at level M: ISO/IEC 18004, table 7.
  EXPECT_EQ(rows_of(std::string(14, 'x')).size(), 21U);
  EXPECT_EQ(rows_of(std::string(15, 'x')).size(), 25U);
  EXPECT_EQ(rows_of(std::string(2331, 'x')).size(), 177U);
}

TEST(QrCode, RefusesWhatItCannotHold) {
  for (const std::string& text : {std::string(), std::string("a\0b", 3), std::string(2332, 'x')}) {
    const auto rows = qr_code(text);
    ASSERT_FALSE(rows.ok()) << text.size();
    EXPECT_EQ(rows.error().code, base::ErrorCode::kInvalid);
  }
}

/// As a picture with its quiet zone: portable bitmap, where 1 is dark.
std::string bitmap(const Rows& rows) {
  constexpr std::size_t kScale = 4;
  constexpr std::size_t kQuiet = 4;
  const std::size_t width = (rows.size() + 2 * kQuiet) * kScale;
  std::string picture = "P1\n" + std::to_string(width) + " " + std::to_string(width) + "\n";
  for (std::size_t y = 0; y < width; ++y) {
    for (std::size_t x = 0; x < width; ++x) {
      const std::size_t row = y / kScale - kQuiet;  // wraps around in the quiet zone
      const std::size_t column = x / kScale - kQuiet;
      const bool inside = row < rows.size() && column < rows.size();
      picture += inside ? rows[row][column] : '0';
    }
    picture += '\n';
  }
  return picture;
}

/// What an independent reader sees in it.
std::string read_back(const Rows& rows) {
  const auto file =
      std::filesystem::temp_directory_path() /
      ("qr-code-" + std::to_string(::testing::UnitTest::GetInstance()->random_seed()) + "-" +
       std::to_string(rows.size()) + ".pbm");
  std::ofstream(file) << bitmap(rows);
  const std::string command = "zbarimg --quiet --raw '" + file.string() + "' 2>/dev/null";
  std::FILE* pipe = ::popen(command.c_str(), "r");
  if (pipe == nullptr) return "";
  std::string text;
  for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) text += static_cast<char>(c);
  ::pclose(pipe);
  std::filesystem::remove(file);
  if (!text.empty() && text.back() == '\n') text.pop_back();
  return text;
}

TEST(QrCode, IsReadAsTheTextByAnotherProgram) {
  EXPECT_EQ(read_back(rows_of(kAddress)), kAddress);
  Rows spoiled = rows_of(kAddress);
  for (std::string& row : spoiled) row.replace(8, row.size() - 16, row.size() - 16, '1');
  EXPECT_NE(read_back(spoiled), kAddress);
}

// ISO/IEC 18004, table 7 (from memory): version 1 holds 14 bytes at level M and 11 at level Q,
// version 40 holds 1 663 at level Q.
TEST(QrCode, HoldsLessAtTheHigherLevel) {
  EXPECT_EQ(rows_of("container/w1").size(), 21U);
  const auto rows_at_q = qr_code("container/w1", QrLevel::kQ);
  ASSERT_TRUE(rows_at_q.ok());
  EXPECT_EQ(rows_at_q->size(), 25U);
  EXPECT_EQ(qr_code("tool/r1 abc", QrLevel::kQ)->size(), 21U);
  EXPECT_TRUE(qr_code(std::string(1663, 'a'), QrLevel::kQ).ok());
  EXPECT_FALSE(qr_code(std::string(1664, 'a'), QrLevel::kQ).ok());
}

}  // namespace
}  // namespace benchwarden::document
