#include "daemon/embedded_files.h"

// Placed by the assembler from the files themselves; the list comes from CMakeLists.txt.
#define BW_FILE(symbol, path) extern "C" const char symbol[], symbol##_end[];
#include "embedded_list.inc"
#undef BW_FILE

namespace benchwarden::daemon {
namespace {

constexpr std::string_view kFontPath = "font";

std::string_view between(const char* begin, const char* end) {
  return {begin, static_cast<std::size_t>(end - begin)};
}

base::DataFiles list_all() {
  return {
#define BW_FILE(symbol, path) {path, between(symbol, symbol##_end)},
#include "embedded_list.inc"
#undef BW_FILE
  };
}

}  // namespace

const base::DataFiles& embedded_files() {
  static const base::DataFiles files = [] {
    base::DataFiles all = list_all();
    std::erase_if(all, [](const base::DataFile& file) { return file.path == kFontPath; });
    return all;
  }();
  return files;
}

std::string_view embedded_font() {
  for (const base::DataFile& file : list_all()) {
    if (file.path == kFontPath) return file.bytes;
  }
  return {};
}

}  // namespace benchwarden::daemon
