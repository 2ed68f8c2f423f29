#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "print/csv.h"
#include "print/html.h"
#include "print/pdf.h"
#include "reports/cylinder_history_document.h"
#include "reports/fixture.h"
#include "reports/waste_month_document.h"

namespace benchwarden::reports {
namespace {

std::string font() {
  std::ifstream stream(BENCHWARDEN_FONT, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

base::Result<std::string> pdf_of(const document::Document& document, print::Paper paper) {
  const std::string bytes = font();
  const auto layout = print::read_layout(project_files("reports/layout/report.toml").at(0));
  return print::to_pdf(document, {paper, bytes, at("2026-11-05T09:00:00+01:00"), *layout});
}

TEST(Pages, TheMonthFitsBothPapersAndIsTheSameBytesTwice) {
  for (const print::Paper paper : {print::Paper::kA4, print::Paper::kLetter}) {
    const auto pdf = pdf_of(october(), paper);
    ASSERT_TRUE(pdf.ok()) << pdf.error().detail;
    EXPECT_EQ(*pdf, *pdf_of(october(), paper));
  }
}

TEST(Pages, AnEmptyMonthPrintsToo) {
  const auto document =
      waste_month_document(figures_of(BookUnderTest{}, {2026, 10}), project_data());
  const auto pdf = pdf_of(document, print::Paper::kA4);
  EXPECT_TRUE(pdf.ok()) << pdf.error().detail;
  EXPECT_NE(print::to_html(document).find("No waste stream is entered"), std::string::npos);
}

TEST(Pages, TheCsvHasTheMachineFigures) {
  const std::string csv = print::to_csv(october());
  EXPECT_NE(csv.find("streams,oil,arisen_kg,0.481,kg\r\n"), std::string::npos);
  EXPECT_NE(csv.find("balance-volume,w1,corrections,-0.658,L\r\n"), std::string::npos);
  EXPECT_NE(csv.find("figures,hazardous_arisen_kg,value,1.731,kg\r\n"), std::string::npos);
}

}  // namespace
}  // namespace benchwarden::reports
