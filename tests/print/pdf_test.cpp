#include "print/pdf.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "print/sample.h"

namespace benchwarden::print {
namespace {

using testing::HasSubstr;

TEST(Pdf, IsTheSameBytesForTheSameInput) {
  const auto first = to_pdf(sample_document(), sample_options());
  const auto second = to_pdf(sample_document(), sample_options());
  ASSERT_TRUE(first) << first.error().detail;
  ASSERT_TRUE(second);
  EXPECT_GT(first->size(), 10'000U);
  EXPECT_TRUE(*first == *second);
}

TEST(Pdf, ChangesWithTheTimeItWasMadeAt) {
  PdfOptions later = sample_options();
  later.made_at.ms += 1000;
  EXPECT_FALSE(to_pdf(sample_document(), sample_options()).value() ==
               to_pdf(sample_document(), later).value());
}

TEST(Pdf, TakesAFontItCannotReadForOurOwnFault) {
  PdfOptions options = sample_options();
  options.font_bytes = options.font_bytes.substr(0, 1000);
  const auto pdf = to_pdf(sample_document(), options);
  ASSERT_FALSE(pdf);
  EXPECT_EQ(pdf.error().code, base::ErrorCode::kInternal);
}

TEST(Pdf, RefusesATableWiderThanThePageByName) {
  document::Table table;
  table.caption = "Too wide";
  for (int i = 0; i < 40; ++i) {
    table.columns.push_back({"heading", "", document::Align::kNumber});
  }
  document::Document document = sample_document();
  document.sections = {{{table}}};
  const auto pdf = to_pdf(document, sample_options());
  ASSERT_FALSE(pdf);
  EXPECT_EQ(pdf.error().code, base::ErrorCode::kInternal);
  EXPECT_THAT(pdf.error().detail, HasSubstr("\"Too wide\""));
}

TEST(Pdf, RefusesFootLinesThatFillThePage) {
  document::Document document = sample_document();
  document.furniture.tree_head = std::string(20'000, 'x');
  const auto pdf = to_pdf(document, sample_options());
  ASSERT_FALSE(pdf);
  EXPECT_EQ(pdf.error().code, base::ErrorCode::kInternal);
}

TEST(Pdf, PrintsADocumentWithNothingInIt) {
  EXPECT_TRUE(to_pdf(document::Document(), sample_options()));
}

}  // namespace
}  // namespace benchwarden::print
