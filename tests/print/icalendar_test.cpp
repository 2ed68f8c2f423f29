#include "print/icalendar.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace benchwarden::print {
namespace {

using testing::HasSubstr;
using testing::Not;

CalendarItem item(const std::string& summary, const std::string& description = "") {
  return {"2b7e1516-28ae-8d2a-abf7-158809cf4f3c",
          {2026, 11, 30},
          summary,
          description,
          base::Instant{1'795'000'000'123}};
}

std::string calendar(const std::string& summary, const std::string& description = "") {
  return to_icalendar("Works", {item(summary, description)});
}

std::vector<std::string> lines_of(const std::string& bytes) {
  std::vector<std::string> lines;
  std::size_t from = 0;
  for (std::size_t end = 0; (end = bytes.find("\r\n", from)) != std::string::npos; from = end + 2) {
    lines.push_back(bytes.substr(from, end - from));
  }
  EXPECT_EQ(from, bytes.size()) << "the last line has no end";
  return lines;
}

/// RFC 5545 section 3.1: a line end and the blank after it are taken out.
std::string unfolded(std::string bytes) {
  for (std::size_t at = 0; (at = bytes.find("\r\n ", at)) != std::string::npos;) bytes.erase(at, 3);
  return bytes;
}

TEST(ICalendar, IsAnEventOfTheWholeDayForEachItem) {
  EXPECT_EQ(calendar("Collection c1", "Entry 7"),
            "BEGIN:VCALENDAR\r\n"
            "VERSION:2.0\r\n"
            "PRODID:-//Benchwarden//What is due//EN\r\n"
            "NAME:Works\r\n"
            "REFRESH-INTERVAL;VALUE=DURATION:PT6H\r\n"
            "BEGIN:VEVENT\r\n"
            "UID:2b7e1516-28ae-8d2a-abf7-158809cf4f3c\r\n"
            "DTSTAMP:20261118T110640Z\r\n"
            "DTSTART;VALUE=DATE:20261130\r\n"
            "SUMMARY:Collection c1\r\n"
            "DESCRIPTION:Entry 7\r\n"
            "TRANSP:TRANSPARENT\r\n"
            "END:VEVENT\r\n"
            "END:VCALENDAR\r\n");
}

TEST(ICalendar, KeepsTheOrderOfItsItems) {
  const std::string bytes = to_icalendar("Works", {item("second"), item("first")});
  EXPECT_LT(bytes.find("SUMMARY:second"), bytes.find("SUMMARY:first"));
}

// RFC 5545 section 3.6: "component" is one or more.
TEST(ICalendar, HoldsAComponentWhereNothingIsDue) {
  const std::string bytes = to_icalendar("Works", {});
  EXPECT_THAT(bytes, HasSubstr("\r\nBEGIN:VTIMEZONE\r\n"));
  EXPECT_THAT(bytes, Not(HasSubstr("VEVENT")));
}

// The example of RFC 5545 section 3.3.11: three lines in one value.
TEST(ICalendar, EscapesTextAsInTheExampleOfRfc5545) {
  const std::string escaped =
      "DESCRIPTION:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.\r\n";
  for (const std::string end : {"\n", "\r\n"}) {
    EXPECT_THAT(unfolded(calendar("x", "Project XYZ Final Review" + end + "Conference Room - 3B" +
                                           end + "Come Prepared.")),
                HasSubstr(escaped));
  }
}

// RFC 5545 section 3.3.11: ESCAPED-CHAR is one of \\ \; \, \N \n, and a colon stays as it is.
TEST(ICalendar, EscapesBackslashSemicolonAndCommaButNoColon) {
  EXPECT_THAT(calendar(R"(a\b;c,d:e"f)"), HasSubstr("SUMMARY:a\\\\b\\;c\\,d:e\"f\r\n"));
  EXPECT_THAT(to_icalendar("A, B", {}), HasSubstr("NAME:A\\, B\r\n"));
}

TEST(ICalendar, LetsNobodyWriteALineOfTheirOwn) {
  const std::string bytes = calendar("x\r\nEND:VEVENT\r\nBEGIN:VALARM\x01\x7F\xFF");
  EXPECT_THAT(bytes, HasSubstr("SUMMARY:x\\nEND:VEVENT\\nBEGIN:VALARM\uFFFD\uFFFD\uFFFD\r\n"));
  EXPECT_THAT(bytes, Not(HasSubstr("\r\nBEGIN:VALARM")));
}

// RFC 5545 section 3.1: lines of at most 75 octets without their end.
TEST(ICalendar, FoldsAfter75OctetsAndNotBefore) {
  const std::string fits(75 - std::string("SUMMARY:").size(), 'x');
  EXPECT_THAT(calendar(fits), HasSubstr("SUMMARY:" + fits + "\r\nTRANSP"));
  EXPECT_THAT(calendar(fits + "y"), HasSubstr("SUMMARY:" + fits + "\r\n y\r\nTRANSP"));
  const std::string next(74, 'z');
  EXPECT_THAT(calendar(fits + next), HasSubstr(fits + "\r\n " + next + "\r\nTRANSP"));
  EXPECT_THAT(calendar(fits + next + "w"), HasSubstr(next + "\r\n w\r\nTRANSP"));
}

// RFC 5545 section 3.1, note: a fold may fall into a sign of several octets, which readers get
// wrong; so ours never does.
TEST(ICalendar, NeverFoldsInsideASign) {
  for (std::size_t shift = 0; shift < 5; ++shift) {
    std::string text(shift, 'a');
    for (int i = 0; i < 60; ++i) text += "ü€\U0001F6E2";
    const std::string bytes = calendar(text);
    for (const std::string& line : lines_of(bytes)) {
      EXPECT_LE(line.size(), 75U);
      const std::size_t start = line.starts_with(' ') ? 1 : 0;
      EXPECT_NE(static_cast<unsigned char>(line.at(start)) & 0xC0U, 0x80U) << line;
    }
    EXPECT_THAT(unfolded(bytes), HasSubstr("SUMMARY:" + text + "\r\n"));
  }
}

// The sentence that RFC 5545 section 3.1 folds, here twice; whoever unfolds it has it back.
TEST(ICalendar, GivesALongLineBackUnfolded) {
  const std::string text =
      "This is a long description that exists on a long line. This is a long description that "
      "exists on a long line.";
  const std::string bytes = calendar("x", text);
  EXPECT_THAT(bytes, Not(HasSubstr(text)));
  EXPECT_THAT(unfolded(bytes), HasSubstr("DESCRIPTION:" + text + "\r\n"));
}

}  // namespace
}  // namespace benchwarden::print
