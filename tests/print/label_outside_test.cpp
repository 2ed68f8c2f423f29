// Asks programs that are not ours what they see on printed labels: poppler for the picture, qpdf
// for the file, zbar for the code, the latter after a poor photocopy.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "print/label_pages.h"
#include "print/label_sample.h"
#include "print/pdf.h"
#include "print/photocopy.h"
#include "print/sample.h"

namespace benchwarden::print {
namespace {

using testing::ContainsRegex;
using testing::HasSubstr;

/// What a fixed command line prints; nothing in it comes from outside the test.
std::string printed_by(const std::string& command) {
  std::string text;
  FILE* pipe = popen(command.c_str(), "r");  // NOLINT(cert-env33-c): see above
  if (pipe == nullptr) return text;
  std::array<char, 4096> buffer{};
  for (std::size_t got = 0; (got = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
    text.append(buffer.data(), got);
  }
  pclose(pipe);
  return text;
}

class LabelOutside : public testing::Test {
 protected:
  void SetUp() override {
    const auto* info = testing::UnitTest::GetInstance()->current_test_info();
    folder_ = std::filesystem::temp_directory_path() /
              ("benchwarden-label-" + std::to_string(getpid()) + "-" + info->name());
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  [[nodiscard]] std::string path(const std::string& name) const {
    return (folder_ / name).string();
  }
  void print(const std::vector<document::Label>& given, Paper paper) const {
    const auto pdf = to_pdf(labels(given), sample_options(paper));
    ASSERT_TRUE(pdf) << pdf.error().detail;
    std::ofstream(path("label.pdf"), std::ios::binary) << *pdf;
  }
  [[nodiscard]] GreyPicture picture(int dpi) const {
    printed_by("pdftoppm -r " + std::to_string(dpi) + " -gray -singlefile " + path("label.pdf") +
               " " + path("page") + " 2>/dev/null");
    return read_pgm(read_file(path("page.pgm")));
  }
  /// What zbar reads in it, a line for each code.
  [[nodiscard]] std::string codes_in(const GreyPicture& picture) const {
    std::ofstream(path("copy.pgm"), std::ios::binary) << write_pgm(picture);
    return printed_by("zbarimg --quiet --raw " + path("copy.pgm") + " 2>/dev/null");
  }

  std::filesystem::path folder_;
};

TEST_F(LabelOutside, CodesAreReadBackFromAPoorPhotocopyOfEveryPaper) {
  for (const Paper paper : {Paper::kA6, Paper::kA7, Paper::kRoll62, Paper::kA4, Paper::kLetter}) {
    SCOPED_TRACE(size_of(paper).name);
    print({tool_label()}, paper);
    const GreyPicture original = picture(150);
    ASSERT_GT(original.width, 300U);
    EXPECT_EQ(codes_in(original), "tool/r1\n");
    for (const std::uint32_t seed : {1U, 2U, 3U}) {
      EXPECT_EQ(codes_in(photocopied(original, seed, 60)), "tool/r1\n") << seed;
    }
  }
}

TEST_F(LabelOutside, BothCodesOfASheetAreReadBackThoughTheyStandTurned) {
  document::Label other = drum_label();
  other.code = "container/" + std::string(40, 'z');  // as long as an id can be
  print({drum_label(), other}, Paper::kA4);
  const std::string found = codes_in(photocopied(picture(150), 7, 60));
  EXPECT_THAT(found, HasSubstr("container/w1\n"));
  EXPECT_THAT(found, HasSubstr(other.code + "\n"));
}

TEST_F(LabelOutside, ACopyThatIsTooPoorIsNotRead) {
  print({tool_label()}, Paper::kA7);
  EXPECT_EQ(codes_in(photocopied(picture(150), 1, 2)), "");
}

TEST_F(LabelOutside, TheFileIsSoundAndAsLargeAsItsPaper) {
  print({drum_label(), tool_label()}, Paper::kA6);
  EXPECT_THAT(printed_by("qpdf --check " + path("label.pdf") + " 2>&1"),
              HasSubstr("No syntax or stream encoding errors found"));
  const std::string info = printed_by("pdfinfo " + path("label.pdf"));
  EXPECT_THAT(info, ContainsRegex("Pages: +2"));
  EXPECT_THAT(info, ContainsRegex("Page size: +297.63[0-9]* x 419.5[0-9]* pts"));
  EXPECT_THAT(printed_by("pdffonts " + path("label.pdf") + " 2>/dev/null"),
              ContainsRegex("yes yes yes"));
}

TEST_F(LabelOutside, ItsTextReadsFromTheMostImportantOn) {
  print({drum_label()}, Paper::kA6);
  const std::string text = printed_by("pdftotext -raw " + path("label.pdf") + " - 2>/dev/null");
  std::size_t last = 0;
  for (const char* wanted : {"Used Oil", "Used damper oil", "13 01 10", "205 L", "Pictograms from",
                             "Keep apart from", "w1", "Saltmarsh", "Emergency 112"}) {
    const std::size_t at = text.find(wanted, last);
    ASSERT_NE(at, std::string::npos) << wanted << " in " << text;
    last = at;
  }
}

/// A black and white picture as the PBM files of netpbm have it (P4).
class Bitmap {
 public:
  explicit Bitmap(const std::string& bytes) : bytes_(bytes) {
    std::string kind;
    std::istringstream stream(bytes);
    stream >> kind >> width_ >> height_;
    stream.get();
    start_ = static_cast<std::size_t>(stream.tellg());
  }
  [[nodiscard]] bool is_dark(Mpt x, Mpt y, int dpi) const {
    const auto column = static_cast<std::size_t>(x * dpi / 72'000);
    const auto row = static_cast<std::size_t>(y * dpi / 72'000);
    EXPECT_TRUE(column < width_ && row < height_);
    const auto byte =
        static_cast<unsigned char>(bytes_.at(start_ + row * ((width_ + 7) / 8) + column / 8));
    return (byte >> (7 - column % 8) & 1U) != 0;
  }

 private:
  const std::string& bytes_;
  std::size_t width_ = 0;
  std::size_t height_ = 0;
  std::size_t start_ = 0;
};

/// Points along the upper left side of the first red frame, so deep in from its edge (in
/// thousandths of the frame's width across the diagonal).
std::vector<Point> along_frame(const document::Label& label, Mpt depth) {
  const auto pages = label_pages(labels({label}), Paper::kA6, sample_layout(), sample_metrics());
  std::vector<Point> points;
  for (const Draw& draw : pages->at(0).draws) {
    const auto* area = std::get_if<AreaDraw>(&draw);
    if (area == nullptr || area->ink != document::Ink::kRed) continue;
    const Point top = area->rings[0][0];
    const Point left = area->rings[0][3];
    const Mpt half = top.x - left.x;
    for (Mpt part = 10; part <= 90; ++part) {
      points.push_back({left.x + half * part / 100 + half * depth / 1000,
                        left.y - half * part / 100 + half * depth / 1000});
    }
    break;
  }
  return points;
}

TEST_F(LabelOutside, PictogramsKeepTheirFrameAndTheirWhiteGroundInBlackAndWhite) {
  constexpr int kDpi = 200;
  print({drum_label()}, Paper::kA6);
  printed_by("pdftoppm -r 200 -mono -singlefile " + path("label.pdf") + " " + path("mono"));
  const std::string bytes = read_file(path("mono.pbm"));
  ASSERT_EQ(bytes.substr(0, 2), "P4");
  const Bitmap bitmap(bytes);
  const auto dark_of = [&](Mpt depth) {
    int dark = 0;
    for (const Point& point : along_frame(drum_label(), depth)) {
      dark += bitmap.is_dark(point.x, point.y, kDpi) ? 1 : 0;
    }
    return dark;
  };
  EXPECT_GT(dark_of(25), 30);  // of 81 points: the frame is a dark grey
  EXPECT_LT(dark_of(75), 5);   // just inside it
}

}  // namespace
}  // namespace benchwarden::print
