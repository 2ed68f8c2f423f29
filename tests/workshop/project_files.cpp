#include "workshop/project_files.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>

namespace benchwarden::workshop {
namespace {

std::string read_file(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// Lives as long as the test program, since data files only point to their bytes.
const std::map<std::string, std::string>& all_bytes() {
  static const std::map<std::string, std::string> files = [] {
    std::map<std::string, std::string> read;
    const std::filesystem::path top(BENCHWARDEN_TOP);
    for (const char* folder :
         {"reports", "forms/calculations", "forms/definitions", "forms/wording"}) {
      for (const auto& item : std::filesystem::recursive_directory_iterator(top / folder)) {
        if (!item.is_regular_file()) continue;
        read.emplace(item.path().lexically_relative(top).generic_string(), read_file(item.path()));
      }
    }
    return read;
  }();
  return files;
}

}  // namespace

const base::DataFiles& project_files() {
  static const base::DataFiles files = [] {
    base::DataFiles listed;
    for (const auto& [path, bytes] : all_bytes()) listed.push_back({path, bytes});
    return listed;
  }();
  return files;
}

std::string_view font_bytes() {
  static const std::string font = read_file(BENCHWARDEN_FONT);
  return font;
}

const Definitions& real_definitions() {
  static const Definitions definitions = [] {
    auto loaded = load_definitions(project_files(), font_bytes(), FileOrigin::kBuiltIn);
    if (!loaded) ADD_FAILURE() << base::format_faults(loaded.error());
    return std::move(loaded).value();
  }();
  return definitions;
}

base::DataFiles files_with(std::string_view path, std::string_view bytes) {
  base::DataFiles files = project_files();
  bool found = false;
  for (base::DataFile& file : files) {
    if (file.path != path) continue;
    file.bytes = bytes;
    found = true;
  }
  EXPECT_TRUE(found) << path;
  return files;
}

std::string bytes_of(std::string_view path) { return all_bytes().at(std::string(path)); }

}  // namespace benchwarden::workshop
