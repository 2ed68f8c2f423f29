#include "workshop/attachments.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/media_type.h"
#include "workshop/test_workshop.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using namespace std::string_literals;

const std::string kPdf = "%PDF-1.4\n1 0 obj\nstartxref\n9\n%%EOF\n";
/// An application segment, a frame header, a scan header, some picture.
const std::string kJpegHead = "\xFF\xD8\xFF\xE0\x00\x04xy\xFF\xC0\x00\x05xyz\xFF\xDA\x00\x03s"s;
const std::string kJpeg = kJpegHead + "picture\xFF\xD9";

std::string chunk(const std::string& type, const std::string& data) {
  return "\0\0\0"s + static_cast<char>(data.size()) + type + data + "crc.";
}
const std::string kPngHead = "\x89PNG\r\n\x1A\n"s + chunk("IHDR", "size and depth");
const std::string kPng = kPngHead + chunk("IDAT", "picture") + chunk("IEND", "");

std::string type_of(const std::string& bytes) {
  const auto type = recognise(bytes);
  return type ? std::string(*type) : "refused: " + type.error().detail;
}

TEST(MediaType, IsToldByTheContent) {
  EXPECT_EQ(type_of(kPdf), "application/pdf");
  EXPECT_EQ(type_of(kJpeg), "image/jpeg");
  EXPECT_EQ(type_of(kJpegHead + "picture\xFF\xD9 and what a camera puts behind"), "image/jpeg");
  EXPECT_EQ(type_of("\xFF\xD8\xFF\xFF\xC2\x00\x05xyz\xFF\xDA\x00\x03sp\xFF\xD9"s), "image/jpeg")
      << "progressive, with a filling byte";
  EXPECT_EQ(type_of(kPng), "image/png");
}

TEST(MediaType, OfAnythingElseIsRefusedWithWhatIsTaken) {
  for (const std::string& bytes :
       {"GIF89a"s, "<html>%PDF-1.4 %%EOF"s, "%PDE-1.4 %%EOF"s, "\x89PNG\n"s, "PK\x03\x04"s, "MZ"s,
        "<svg xmlns='http://www.w3.org/2000/svg'/>"s}) {
    EXPECT_THAT(type_of(bytes), HasSubstr("another kind; accepted: a PDF, JPEG or PNG file"));
  }
  EXPECT_THAT(type_of(""), HasSubstr("empty; accepted"));
}

TEST(MediaType, OfAFileCutOffAnywhereIsRefused) {
  for (const std::string& whole : {kPdf.substr(0, kPdf.size() - 1), kJpeg, kPng}) {
    for (std::size_t length = 8; length < whole.size(); ++length) {
      EXPECT_THAT(type_of(whole.substr(0, length)), HasSubstr("cut off")) << length;
    }
  }
}

TEST(MediaType, OfADamagedStructureIsRefused) {
  EXPECT_THAT(type_of(kPng + "more"), HasSubstr("damaged"));
  EXPECT_THAT(type_of(kPngHead + chunk("IEND", "")), HasSubstr("damaged")) << "no picture";
  EXPECT_THAT(type_of("\x89PNG\r\n\x1A\n" + chunk("IDAT", "p") + chunk("IEND", "")),
              HasSubstr("damaged"));
  EXPECT_THAT(type_of("\xFF\xD8\xFF\xE0\x00\x01"s + kJpeg), HasSubstr("damaged"));
  EXPECT_THAT(type_of("\xFF\xD8\xFF\xDA\x00\x03sp\xFF\xD9"s), HasSubstr("damaged")) << "no frame";
  EXPECT_THAT(type_of("%PDF-1.4 %%EOF startxref"), HasSubstr("damaged"));
  EXPECT_THAT(type_of("%PDF-1.4\nstartxref 9 %%EOF" + std::string(1100, ' ')),
              HasSubstr("damaged"));
}

TEST(MediaType, LengthEndsAtFiveMegabytes) {
  std::string pdf = kPdf;
  pdf.insert(9, std::string(5'000'000 - pdf.size(), ' '));
  EXPECT_EQ(type_of(pdf), "application/pdf");
  pdf.insert(9, " ");
  EXPECT_THAT(type_of(pdf), HasSubstr("5000001 bytes; accepted"));
}

class AttachedFiles : public ::testing::Test {
 protected:
  [[nodiscard]] std::string sent_in(const std::string& bytes) const {
    const auto taken = take_in(workshop_.ports(), bytes);
    EXPECT_TRUE(taken.ok()) << taken.error().detail;
    return taken.ok() ? base::to_hex(taken->digest) : "";
  }
  static Told check(const std::string& digest) {
    return tell("cylinder-check", R"({"cylinder":"n1","gauge_pressure_bar":180})", kNow,
                R"(,"attachments":[")" + digest + R"("])");
  }
  [[nodiscard]] base::Result<AttachedFile> file(const std::string& digest) const {
    return attached_file(workshop_.ports(), *base::digest_from_hex(digest));
  }

  TestWorkshop workshop_;
};

TEST_F(AttachedFiles, AreHandedOutOnceAnEntryNamesThem) {
  const auto taken = take_in(workshop_.ports(), kPng);
  ASSERT_TRUE(taken.ok());
  EXPECT_EQ(taken->media_type, "image/png");
  EXPECT_EQ(taken->bytes, kPng.size());
  EXPECT_FALSE(taken->already_there);
  EXPECT_TRUE(take_in(workshop_.ports(), kPng)->already_there);
  const std::string digest = base::to_hex(taken->digest);
  EXPECT_EQ(file(digest).error().code, base::ErrorCode::kNotFound);
  workshop_.enter(check(digest), kTechnician);
  const auto handed_out = file(digest);
  ASSERT_TRUE(handed_out.ok()) << handed_out.error().detail;
  EXPECT_EQ(handed_out->bytes, kPng);
  EXPECT_EQ(handed_out->media_type, "image/png");
  EXPECT_EQ(handed_out->name, digest.substr(0, 16) + ".png");
}

TEST_F(AttachedFiles, MustBeSentInFirst) {
  EXPECT_THAT(faults_of(workshop_.send(check(std::string(64, '7')))),
              ElementsAre("/attachments/0 unknown_attachment"));
}

TEST_F(AttachedFiles, AreListedWithTheirEntryAndItsCorrections) {
  const std::string first = sent_in(kJpeg);
  const std::string id = workshop_.enter(check(first));
  const std::string later = sent_in(kPdf);
  workshop_.enter(tell(
      "correction", R"({"action":"corrected"})", kNow,
      R"(,"corrects":")" + id + R"(","reason":"came late","attachments":[")" + later + R"("])"));
  const auto shown = show_entry(workshop_.ports(), *base::parse_uuid(id));
  ASSERT_TRUE(shown.ok());
  EXPECT_EQ(value_at(*shown, "attached"), R"([{"digest":")" + first +
                                              R"(","media_type":"image/jpeg","bytes":)" +
                                              std::to_string(kJpeg.size()) + "}]");
  EXPECT_EQ(value_at(*shown, "corrections/0/attached/0/digest"), "\"" + later + "\"");
  EXPECT_EQ(value_at(*shown, "corrections/0/attached/0/media_type"), "\"application/pdf\"");
}

TEST_F(AttachedFiles, AreFoundByTheKindOfTheEntryThatNamesThemOrIsCorrected) {
  const auto named = [&](const std::string& digest, std::string_view kind) {
    const auto found = is_named(workshop_.ports(), *base::digest_from_hex(digest),
                                [kind](std::string_view one) { return one == kind; });
    EXPECT_TRUE(found.ok());
    return found.ok() && *found;
  };
  const std::string first = sent_in(kJpeg);
  const std::string id = workshop_.enter(check(first));
  const std::string later = sent_in(kPdf);
  workshop_.enter(tell(
      "correction", R"({"action":"corrected"})", kNow,
      R"(,"corrects":")" + id + R"(","reason":"came late","attachments":[")" + later + R"("])"));
  for (const std::string& digest : {first, later}) {
    EXPECT_TRUE(named(digest, "cylinder-check"));
    EXPECT_FALSE(named(digest, "collection"));
  }
  EXPECT_FALSE(named(sent_in(kPng), "cylinder-check")) << "no entry names it";
}

TEST_F(AttachedFiles, TheSameEntrySentAgainIsAnsweredAsBefore) {
  const Told told = check(sent_in(kPng));
  EXPECT_FALSE(receipt_of(workshop_.send(told)).already_there);
  EXPECT_TRUE(receipt_of(workshop_.send(told)).already_there);
}

TEST_F(AttachedFiles, AnIssuedReportIsNotHandedOutAsOne) {
  const std::string pdf = "%PDF-1.4 figures";
  ASSERT_TRUE(workshop_.ports().book.keep_attachment(pdf).ok());
  const std::string digest = base::to_hex(base::sha256(pdf));
  ASSERT_TRUE(file(digest).ok());
  const Actor daemon{"p1", "daemon", true};
  const std::string root(64, '1');
  workshop_.enter(
      tell("report-issued",
           R"({"report":"waste-month","month":"2026-10","paper":"a4","report_digest":")" + digest +
               R"(","book_size":1,"book_root":")" + root + R"("})",
           kNow, R"(,"attachments":[")" + digest + R"("])"),
      daemon);
  EXPECT_EQ(file(digest).error().code, base::ErrorCode::kNotFound);
}

}  // namespace
}  // namespace benchwarden::workshop
