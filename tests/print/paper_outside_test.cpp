// What a printer would put on the paper: read from pictures of the pages.

#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "print/block_samples.h"
#include "print/pdf_outside.h"
#include "print/sample.h"

namespace benchwarden::print {
namespace {

/// In points at 72 dpi, which makes a point one pixel; the last are beyond the ink.
struct Ink {
  int left = 10'000;
  int top = 10'000;
  int right = 0;
  int bottom = 0;
};

/// Where a picture in grey (PGM, "P5 width height 255" and its bytes) is not white.
Ink ink_of(const std::string& picture) {
  std::istringstream head(picture);
  std::string magic;
  int width = 0;
  int height = 0;
  int white = 0;
  head >> magic >> width >> height >> white;
  EXPECT_EQ(magic, "P5");
  const std::size_t first = static_cast<std::size_t>(head.tellg()) + 1;
  Ink ink;
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const auto at = first + static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                      static_cast<std::size_t>(x);
      if (static_cast<unsigned char>(picture.at(at)) > 250) continue;
      ink = {std::min(ink.left, x), std::min(ink.top, y), std::max(ink.right, x + 1),
             std::max(ink.bottom, y + 1)};
    }
  }
  return ink;
}

class OnPaper : public PdfOutside {
 protected:
  [[nodiscard]] Ink ink_of_page(std::size_t page) const {
    const std::string number = std::to_string(page);
    const std::string picture = (folder_ / "page").string();
    ask("pdftoppm -gray -r 72 -singlefile -f " + number + " -l " + number + " " + path_ + " " +
        picture);
    return ink_of(read_file(picture + ".pgm"));
  }
};

TEST_F(OnPaper, NothingIsDrawnOutsideTheMarginsA4AndLetterHaveInCommon) {
  document::Document document = linked_document(60);
  document.standing = document::Standing::kNotForIssue;
  document.sections.insert(document.sections.begin() + 1,
                           document::Section{{sample_bars(24), sample_bars(3)}});
  for (const Paper paper : {Paper::kA4, Paper::kLetter}) {
    write(document, paper);
    const std::size_t pages = count(text(), "\f");
    EXPECT_GE(pages, 5U);
    for (std::size_t page = 1; page <= pages; ++page) {
      const Ink ink = ink_of_page(page);
      // a pixel more than 20 mm from the left, 15 mm from the right of A4, the top and the bottom
      // of Letter: edges are softened
      EXPECT_GE(ink.left, 55) << page;
      EXPECT_GE(ink.top, 41) << page;
      EXPECT_LE(ink.right, 595 - 41) << page;
      EXPECT_LE(ink.bottom, 792 - 41) << page;
      EXPECT_GT(ink.bottom, ink.top) << page;
    }
  }
}

TEST_F(OnPaper, TextIsReadInTheOrderOfTheDocument) {
  write(linked_document(50));
  const std::string found = ask("pdftotext -raw " + path_ + " - 2>/dev/null").text;
  std::size_t last = 0;
  for (const char* wanted : {"Waste in October 2026",
                             "1 to 31 October",
                             "Waste oil drained",
                             "38.62",
                             "Collected",
                             "Contents",
                             "Streams . ",
                             "Index of entries . ",
                             "Waste added, by stream",
                             "Oily rags",
                             "All streams",
                             "Volumes are as logged",
                             "corrected 2026-10-14",
                             "What to know",
                             "none",
                             "Keep used oil off",
                             "Rags with drying oils",
                             "Signature",
                             "To be filled in",
                             "Drums stand in the tray",
                             "yes",
                             "no",
                             "Pressure of nitrogen",
                             "bar",
                             "container/w1",
                             "Used oil collected, by month",
                             "2026-12",
                             "Every check of Month 1",
                             "at bench 50 50.5",
                             "Index of entries"}) {
    const std::size_t at = found.find(wanted, last);
    ASSERT_NE(at, std::string::npos) << wanted;
    last = at;
  }
}

TEST_F(OnPaper, TheSameDocumentGivesTheSameBytes) {
  const document::Document document = linked_document(120);
  EXPECT_TRUE(to_pdf(document, sample_options()).value() ==
              to_pdf(document, sample_options()).value());
}

}  // namespace
}  // namespace benchwarden::print
