#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "print/csv.h"
#include "print/html.h"
#include "print/label_sample.h"
#include "print/label_svg.h"
#include "print/pdf.h"
#include "print/sample.h"

namespace benchwarden::print {
namespace {

using testing::HasSubstr;
using testing::Not;

document::Label hostile_label() {
  document::Label label = drum_label();
  label.name = "<script>alert(1)</script> & \"oil\"";
  label.warnings = {"=1+1", "turned \u202Eround\u202C", std::string("bell\a nul\0", 10)};
  label.foot = {std::string(300, 'w')};
  return label;
}

std::string svg_of(const document::Document& document, Paper paper) {
  const auto svg = labels_to_svg(document, sample_options(paper));
  EXPECT_TRUE(svg) << svg.error().detail;
  return svg ? *svg : "";
}

TEST(LabelHtml, SaysEverythingInWordsAndItsPicturesToo) {
  const std::string html = to_html(labels({drum_label()}));
  for (const char* wanted : {"<h2>Container w1</h2>", "<p class=\"words\">Used Oil</p>",
                             "<dt>Accumulation start</dt><dd>to be written on by hand</dd>",
                             "<svg role=\"img\" aria-label=\"Health hazard (GHS08)\"",
                             "<svg role=\"img\" aria-label=\"container/w1\"", "Emergency 112",
                             "<strong>Keep apart from solvent, water, brake fluid</strong>",
                             "Pictograms from the data sheet of 2025-03-01"}) {
    EXPECT_THAT(html, HasSubstr(wanted));
  }
  EXPECT_LT(html.find("Used Oil</p>"), html.find("Used damper oil"));
  EXPECT_EQ(count(html, "fill=\"#c00\""), 2U);
}

TEST(LabelCsv, HasALineForEachThingItSays) {
  const std::string csv = to_csv(labels({drum_label(), tool_label()}));
  for (const char* wanted :
       {"label,container/w1,words,Used Oil,\r\n", "label,container/w1,pictogram,ghs08,\r\n",
        "label,container/w1,low_code,13 01 10,\r\n", "label,container/w1,accumulation_start,,\r\n",
        "label,tool/r1,next_due,2026-12-21,\r\n", "label,tool/r1,id,r1,\r\n"}) {
    EXPECT_THAT(csv, HasSubstr(wanted));
  }
}

TEST(LabelTwins, MakeHostileTextHarmless) {
  const document::Document document = labels({hostile_label()});
  for (const std::string& text : {to_html(document), svg_of(document, Paper::kA4)}) {
    EXPECT_THAT(text, Not(HasSubstr("<script")));
    EXPECT_THAT(text, Not(HasSubstr("\u202E")));
    EXPECT_THAT(text, Not(HasSubstr("\a")));
    EXPECT_EQ(text.find('\0'), std::string::npos);
  }
  EXPECT_THAT(to_csv(document), HasSubstr("warning,'=1+1,"));
  EXPECT_THAT(to_csv(document), Not(HasSubstr("\u202E")));
}

TEST(LabelSvg, IsAsLargeAsItsPaperAndHasEveryPage) {
  const std::string svg = svg_of(labels({drum_label(), tool_label()}), Paper::kA6);
  EXPECT_THAT(svg, HasSubstr("width=\"105.000mm\" height=\"296.000mm\""));
  EXPECT_EQ(count(svg, "<g transform="), 2U);
  EXPECT_THAT(svg, HasSubstr(">Used Oil</text>"));
  EXPECT_THAT(svg, HasSubstr(">Regulator</text>"));
  EXPECT_THAT(svg_of(labels({drum_label()}), Paper::kA4), HasSubstr("transform=\"rotate(90 "));
}

TEST(LabelPdf, GivesEqualBytesForEqualInput) {
  for (const Paper paper : {Paper::kA4, Paper::kLetter, Paper::kA6}) {
    const auto one = to_pdf(labels({drum_label()}), sample_options(paper));
    const auto other = to_pdf(labels({drum_label()}), sample_options(paper));
    ASSERT_TRUE(one && other);
    EXPECT_EQ(*one, *other);
  }
}

TEST(LabelPdf, IsThereForSmallPaperAloneWherePagesAreRefused) {
  const auto pages = to_pdf(long_table(1), sample_options(Paper::kA6));
  ASSERT_FALSE(pages);
  EXPECT_EQ(pages.error().code, base::ErrorCode::kInvalid);
  EXPECT_EQ(pages.error().detail, "paper 'a6'; accepted: a4, letter");
}

}  // namespace
}  // namespace benchwarden::print
