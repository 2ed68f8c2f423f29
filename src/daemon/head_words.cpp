#include "daemon/head_words.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "base/base64.h"
#include "base/text.h"

namespace benchwarden::daemon {
namespace {

/// As reports print them, and as people type them.
constexpr std::array<std::string_view, 4> kSpacesBetweenDigits{" ", "\u00A0", "\u2009", "\u202F"};

std::string without_spaces(std::string text) {
  for (const std::string_view space : kSpacesBetweenDigits) {
    for (std::size_t at = text.find(space); at != std::string::npos; at = text.find(space, at)) {
      text.erase(at, space.size());
    }
  }
  return text;
}

std::string in_lower_case(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return text;
}

base::Error not_accepted(const std::string& word, const std::string& accepted) {
  return {base::ErrorCode::kInvalid, word + "; accepted: " + accepted};
}

}  // namespace

base::Result<workshop::ClaimedHead> read_head_words(const HeadWords& words) {
  const std::string given = words.size.value_or("");
  const auto size = base::whole_number(without_spaces(given));
  if (!size || *size == 0) {
    return not_accepted("--size '" + given + "' is no number of entries",
                        "1 or more, in digits, with spaces between thousands or without");
  }
  auto root = base::digest_from_hex(in_lower_case(words.root));
  if (!root) root = base::digest_from_base64(words.root);
  if (!root) {
    return not_accepted("--root '" + words.root + "' is no root of a tree",
                        "64 hexadecimal digits, or 44 signs of base64");
  }
  return workshop::ClaimedHead{*size, *root, {}, {}};
}

}  // namespace benchwarden::daemon
