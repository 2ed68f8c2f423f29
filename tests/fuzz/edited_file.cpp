#include "fuzz/edited_file.h"

#include <algorithm>
#include <charconv>
#include <numeric>

#include "base/text.h"

namespace benchwarden::fuzz {

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  std::size_t from = 0;
  while (from <= text.size()) {
    const std::size_t to = std::min(text.find('\n', from), text.size());
    lines.emplace_back(text.substr(from, to - from));
    from = to + 1;
  }
  return lines;
}

std::string chosen_name(std::string_view input, const std::vector<std::string>& names) {
  const std::string_view said = input.substr(0, input.find('\n'));
  if (std::find(names.begin(), names.end(), said) != names.end()) return std::string(said);
  const auto sum = std::accumulate(
      said.begin(), said.end(), std::size_t{0},
      [](std::size_t total, char c) { return total + static_cast<unsigned char>(c); });
  return names[sum % names.size()];
}

std::string edited(std::string_view bytes, std::string_view input) {
  std::vector<std::string> lines = lines_of(bytes);
  std::vector<bool> left_out(lines.size(), false);
  const std::vector<std::string> edits = lines_of(input);
  for (std::size_t i = 1; i < edits.size(); ++i) {
    const char* const end = edits[i].data() + edits[i].size();
    std::size_t number = 0;
    const auto read = std::from_chars(edits[i].data(), end, number);
    if (read.ec != std::errc{} || number < 1 || number > lines.size()) continue;
    left_out[number - 1] = read.ptr == end;
    if (read.ptr != end) lines[number - 1] = std::string(read.ptr + 1, end);
  }
  std::vector<std::string> kept;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (!left_out[i]) kept.push_back(lines[i]);
  }
  return base::join(kept, "\n");
}

}  // namespace benchwarden::fuzz
