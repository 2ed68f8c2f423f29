#include "seal/checkpoint.h"

#include <cassert>

#include "base/base64.h"
#include "base/text.h"

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
  const auto size = base::whole_number((*lines)[1]);
  if (!size) return no_checkpoint("the size '" + (*lines)[1] + "' is no whole number in digits");
  const auto root = base::digest_from_base64((*lines)[2]);
  if (!root) return no_checkpoint("the root is " + root.error().detail);
  return Checkpoint{(*lines)[0], *size, *root, {lines->begin() + 3, lines->end()}};
}

}  // namespace benchwarden::seal
