#include "golden/printed.h"

#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <fstream>
#include <regex>

#include "book/book_fixture.h"

namespace benchwarden::workshop {

std::string printed_text(const std::string& pdf) {
  const testing::TemporaryFolder folder;
  const std::string path = (folder.path() / "report.pdf").string();
  std::ofstream(path, std::ios::binary) << pdf;
  // Nothing in the command comes from outside the test.
  FILE* pipe = popen(("pdftotext -layout " + path + " - 2>&1").c_str(), "r");  // NOLINT
  if (pipe == nullptr) {
    ADD_FAILURE() << "pdftotext cannot be started";
    return "";
  }
  std::string text;
  std::array<char, 4096> buffer{};
  for (std::size_t got = 0; (got = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
    text.append(buffer.data(), got);
  }
  EXPECT_EQ(pclose(pipe), 0) << text;
  return std::regex_replace(text, std::regex("\f"), "---- end of page\n");
}

}  // namespace benchwarden::workshop
