#include "document/lead_in.h"

#include <gtest/gtest.h>

namespace benchwarden::document {
namespace {

const Heading kHeading{1, "h"};
const Paragraph kParagraph{"text"};

TEST(LeadIn, IsAParagraphBetweenAHeadingAndWhatItIntroduces) {
  EXPECT_TRUE(leads_in({{kHeading, kParagraph, Table{}}}, 1));
  EXPECT_TRUE(leads_in({{kHeading, kParagraph, NoteBox{}}}, 1));
  EXPECT_TRUE(leads_in({{kHeading, kParagraph, SignatureLine{}}}, 1));
}

TEST(LeadIn, IsNoParagraphOfRunningText) {
  EXPECT_FALSE(leads_in({{kHeading, kParagraph, kParagraph, Table{}}}, 1));
  EXPECT_FALSE(leads_in({{kHeading, kParagraph, kParagraph, Table{}}}, 2));
  EXPECT_FALSE(leads_in({{kHeading, kParagraph, kHeading, Table{}}}, 1));
  EXPECT_FALSE(leads_in({{kHeading, Table{}, kParagraph, Table{}}}, 2));
}

TEST(LeadIn, IsNothingAtTheEdgesOfASection) {
  EXPECT_FALSE(leads_in({{kHeading, kParagraph}}, 1));
  EXPECT_FALSE(leads_in({{kParagraph, Table{}}}, 0));
  EXPECT_FALSE(leads_in({{kHeading, Table{}}}, 1));
}

}  // namespace
}  // namespace benchwarden::document
