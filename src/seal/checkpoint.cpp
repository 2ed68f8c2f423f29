#include "seal/checkpoint.h"

#include <algorithm>
#include <cassert>
#include <charconv>

#include "base/base64.h"

namespace benchwarden::seal {
namespace {

base::Error no_checkpoint(const std::string& why) {
  return {base::ErrorCode::kInvalid, "no checkpoint: " + why};
}

base::Result<std::vector<std::string>> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    if (end == std::string_view::npos) return no_checkpoint("its last line is not ended");
    lines.emplace_back(text.substr(0, end));
    if (lines.back().empty()) return no_checkpoint("it has an empty line");
    text.remove_prefix(end + 1);
  }
  if (lines.size() < 3) return no_checkpoint("origin, size and root are needed, a line each");
  return lines;
}

base::Result<std::uint64_t> read_size(std::string_view line) {
  std::uint64_t size = 0;
  const auto read = std::from_chars(line.data(), line.data() + line.size(), size);
  // A second way to write the same number would make a second text of the same checkpoint.
  if (read.ec != std::errc() || std::to_string(size) != line) {
    return no_checkpoint("the size '" + std::string(line) + "' is no whole number in digits");
  }
  return size;
}

base::Result<base::Sha256Digest> read_root(std::string_view line) {
  const auto bytes = base::from_base64(line);
  base::Sha256Digest root{};
  if (!bytes || bytes->size() != root.size()) {
    return no_checkpoint("the root is not 32 bytes in base64");
  }
  std::copy(bytes->begin(), bytes->end(), root.begin());
  return root;
}

}  // namespace

std::string write_checkpoint(const Checkpoint& checkpoint) {
  assert(!checkpoint.origin.empty());
  std::string text = checkpoint.origin + "\n" + std::to_string(checkpoint.size) + "\n" +
                     base::to_base64(base::as_bytes(checkpoint.root)) + "\n";
  for (const std::string& line : checkpoint.extensions) {
    assert(!line.empty());
    text += line + "\n";
  }
  return text;
}

base::Result<Checkpoint> parse_checkpoint(std::string_view text) {
  auto lines = lines_of(text);
  if (!lines) return lines.error();
  const auto size = read_size((*lines)[1]);
  if (!size) return size.error();
  const auto root = read_root((*lines)[2]);
  if (!root) return root.error();
  return Checkpoint{(*lines)[0], *size, *root, {lines->begin() + 3, lines->end()}};
}

}  // namespace benchwarden::seal
