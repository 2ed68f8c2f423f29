#include "print/unicode_map.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <string_view>
#include <vector>

namespace benchwarden::print {
namespace {

constexpr std::string_view kHead = R"(/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000> <FFFF>
endcodespacerange
)";
constexpr std::string_view kFoot = R"(endcmap
CMapName currentdict /CMap defineresource pop
end
end
)";
constexpr std::size_t kRangesAtOnce = 100;  // as many as one operator may have

/// One range for each high byte: within a range only the low byte may change.
std::vector<std::string> ranges() {
  std::vector<std::string> lines;
  for (unsigned high = 0; high <= 0xFF; ++high) {
    if (high >= 0xD8 && high <= 0xDF) {
      continue;  // surrogates are no characters
    }
    std::array<char, 32> line{};
    std::snprintf(line.data(), line.size(), "<%02X00> <%02XFF> <%02X00>\n", high, high, high);
    lines.emplace_back(line.data());
  }
  return lines;
}

}  // namespace

std::string unicode_map() {
  const std::vector<std::string> lines = ranges();
  std::string map(kHead);
  for (std::size_t first = 0; first < lines.size(); first += kRangesAtOnce) {
    const std::size_t end = std::min(first + kRangesAtOnce, lines.size());
    map += std::to_string(end - first) + " beginbfrange\n";
    for (std::size_t i = first; i < end; ++i) {
      map += lines[i];
    }
    map += "endbfrange\n";
  }
  return map.append(kFoot);
}

}  // namespace benchwarden::print
