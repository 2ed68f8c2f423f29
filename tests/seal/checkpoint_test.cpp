#include "seal/checkpoint.h"

#include <gtest/gtest.h>

namespace benchwarden::seal {
namespace {

// Size 8 of the public reference tree of RFC 6962 hashing, its root in base64.
constexpr const char* kBody =
    "workshop.example/book/01\n"
    "8\n"
    "XcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg=\n";

std::string why_no_checkpoint(const std::string& text) {
  const auto parsed = parse_checkpoint(text);
  return parsed ? "taken" : parsed.error().detail;
}

TEST(Checkpoint, IsOriginSizeAndRootALineEach) {
  const auto checkpoint = parse_checkpoint(kBody);
  ASSERT_TRUE(checkpoint) << checkpoint.error().detail;
  EXPECT_EQ(checkpoint->origin, "workshop.example/book/01");
  EXPECT_EQ(checkpoint->size, 8U);
  EXPECT_EQ(base::to_hex(checkpoint->root),
            "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328");
  EXPECT_EQ(write_checkpoint(*checkpoint), kBody);
}

TEST(Checkpoint, KeepsFurtherLinesInTheirOrder) {
  const std::string text = std::string(kBody) + "one\ntwo three\n";
  const auto checkpoint = parse_checkpoint(text);
  ASSERT_TRUE(checkpoint);
  EXPECT_EQ(checkpoint->extensions, (std::vector<std::string>{"one", "two three"}));
  EXPECT_EQ(write_checkpoint(*checkpoint), text);
}

TEST(Checkpoint, SaysWhatIsWrongWithOne) {
  const std::string root = "XcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg=\n";
  EXPECT_EQ(why_no_checkpoint("a\n8\n"),
            "no checkpoint: origin, size and root are needed, a line each");
  EXPECT_EQ(why_no_checkpoint("\n8\n" + root), "no checkpoint: it has an empty line");
  EXPECT_EQ(why_no_checkpoint("a\n8\nx"), "no checkpoint: its last line is not ended");
  for (const char* size : {"08", "-1", "+8", " 8", "8.0", "x", "18446744073709551616"}) {
    EXPECT_EQ(why_no_checkpoint("a\n" + std::string(size) + "\n" + root),
              "no checkpoint: the size '" + std::string(size) + "' is no whole number in digits");
  }
  EXPECT_EQ(why_no_checkpoint("a\n8\nAAAA\n"), "no checkpoint: the root is not 32 bytes in base64");
  EXPECT_EQ(why_no_checkpoint("a\n8\n" + root.substr(1)),
            "no checkpoint: the root is not 32 bytes in base64");
}

}  // namespace
}  // namespace benchwarden::seal
