#include "book/export_files.h"

#include <charconv>
#include <fstream>
#include <iterator>
#include <system_error>

#include "base/sha256.h"

namespace benchwarden::book {

std::string exported_head(const TreeHead& head) {
  return "size " + std::to_string(head.size) + "\nroot " + base::to_hex(head.root) + "\n";
}

std::optional<TreeHead> parse_exported_head(std::string_view text) {
  constexpr std::string_view kSize = "size ";
  constexpr std::string_view kRoot = "\nroot ";
  const std::size_t root_at = text.find(kRoot);
  if (!text.starts_with(kSize) || root_at == std::string_view::npos) return std::nullopt;
  TreeHead head;
  std::from_chars(text.data() + kSize.size(), text.data() + root_at, head.size);
  const auto root = base::digest_from_hex(text.substr(root_at + kRoot.size(), 64));
  if (!root) return std::nullopt;
  head.root = *root;
  // Whatever else is wrong with it shows here.
  if (text != exported_head(head)) return std::nullopt;
  return head;
}

base::Result<std::string> read_exported(const std::filesystem::path& file) {
  std::error_code failure;
  if (!std::filesystem::is_regular_file(file, failure)) {
    return base::Error{base::ErrorCode::kNotFound, file.string() + " is no regular file"};
  }
  std::ifstream stream(file, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  if (!stream.good() && !stream.eof()) {
    return base::Error{base::ErrorCode::kUnavailable, file.string() + " cannot be read"};
  }
  return bytes;
}

base::Result<std::map<std::string, std::string>> digests_below(
    const std::filesystem::path& folder) {
  std::map<std::string, std::string> digests;
  std::error_code failure;
  for (const auto& item : std::filesystem::recursive_directory_iterator(folder, failure)) {
    const std::string name = item.path().lexically_relative(folder).generic_string();
    if (item.is_directory(failure) || name == kExportedDigests) continue;
    const auto bytes = read_exported(item.path());
    if (!bytes) return bytes.error();
    digests[name] = base::to_hex(base::sha256(*bytes));
  }
  if (failure) {
    return base::Error{base::ErrorCode::kUnavailable,
                       folder.string() + " cannot be read: " + failure.message()};
  }
  return digests;
}

std::string format_digests(const std::map<std::string, std::string>& digests) {
  std::string text;
  for (const auto& [name, digest] : digests) text += digest + "  " + name + "\n";
  return text;
}

}  // namespace benchwarden::book
