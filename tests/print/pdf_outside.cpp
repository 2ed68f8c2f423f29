#include "print/pdf_outside.h"

#include <gmock/gmock.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <fstream>

#include "print/sample.h"

namespace benchwarden::print {

Answer ask(const std::string& command) {
  Answer answer;
  FILE* pipe = popen(command.c_str(), "r");  // NOLINT(cert-env33-c): the header says why
  if (pipe == nullptr) {
    return answer;
  }
  std::array<char, 4096> buffer{};
  for (std::size_t got = 0; (got = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
    answer.text.append(buffer.data(), got);
  }
  answer.exit_code = pclose(pipe);
  return answer;
}

void PdfOutside::SetUp() {
  const auto* info = testing::UnitTest::GetInstance()->current_test_info();
  folder_ = std::filesystem::temp_directory_path() /
            ("benchwarden-pdf-" + std::to_string(getpid()) + "-" + info->name());
  std::filesystem::create_directories(folder_);
  path_ = (folder_ / "report.pdf").string();
}

void PdfOutside::write(const document::Document& document, Paper paper) {
  const auto pdf = to_pdf(document, sample_options(paper));
  ASSERT_TRUE(pdf) << pdf.error().detail;
  std::ofstream(path_, std::ios::binary) << *pdf;
  const Answer check = ask("qpdf --check " + path_ + " 2>&1");
  EXPECT_EQ(check.exit_code, 0) << check.text;
  EXPECT_THAT(check.text, testing::HasSubstr("No syntax or stream encoding errors found"));
}

}  // namespace benchwarden::print
