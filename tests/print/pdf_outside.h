#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <string>

#include "print/pdf.h"

namespace benchwarden::print {

struct Answer {
  int exit_code = -1;
  std::string text;
};

/// Runs a fixed command line; nothing in it comes from outside the test.
Answer ask(const std::string& command);

/// A PDF in a folder of its own.
class PdfOutside : public testing::Test {
 protected:
  void SetUp() override;
  void TearDown() override { std::filesystem::remove_all(folder_); }

  /// Fails unless qpdf finds the file sound.
  void write(const document::Document& document, Paper paper = Paper::kA4);
  [[nodiscard]] Answer tool(const std::string& command) const {
    return ask(command + " " + path_ + " 2>&1");
  }
  [[nodiscard]] std::string text() const {
    return ask("pdftotext -layout " + path_ + " - 2>/dev/null").text;
  }

  std::filesystem::path folder_;
  std::string path_;
};

}  // namespace benchwarden::print
