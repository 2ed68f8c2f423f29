#include "http/query.h"

#include <algorithm>

#include "base/text.h"

namespace benchwarden::http {
namespace {

std::optional<int> hex_digit(char c) {
  if (c >= '0' && c <= '9') {
    return c - '0';
  }
  if (c >= 'a' && c <= 'f') {
    return c - 'a' + 10;
  }
  if (c >= 'A' && c <= 'F') {
    return c - 'A' + 10;
  }
  return std::nullopt;
}

/// The byte that "%XY" at `at` stands for.
std::optional<char> escaped_byte(std::string_view text, std::size_t at) {
  if (at + 2 >= text.size()) {
    return std::nullopt;
  }
  const std::optional<int> high = hex_digit(text[at + 1]);
  const std::optional<int> low = hex_digit(text[at + 2]);
  if (!high || !low) {
    return std::nullopt;
  }
  return static_cast<char>(*high * 16 + *low);
}

/// Far more than any call has. Each is compared with those before it, by which a long list would
/// cost out of all proportion.
constexpr std::size_t kNamesMax = 32;

template <class Take>
bool for_each_part(std::string_view text, char separator, Take take) {
  for (;;) {
    const std::size_t end = text.find(separator);
    if (!take(text.substr(0, end))) {
      return false;
    }
    if (end == std::string_view::npos) {
      return true;
    }
    text.remove_prefix(end + 1);
  }
}

}  // namespace

const std::string* Query::find(std::string_view name) const {
  const auto found =
      std::find_if(items_.begin(), items_.end(), [&](const auto& i) { return i.first == name; });
  return found == items_.end() ? nullptr : &found->second;
}

std::optional<std::string> percent_decoded(std::string_view text, Plus plus) {
  std::string decoded;
  decoded.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '%') {
      const std::optional<char> byte = escaped_byte(text, i);
      if (!byte) {
        return std::nullopt;
      }
      decoded += *byte;
      i += 2;
    } else if (text[i] == '+' && plus == Plus::kSpace) {
      decoded += ' ';
    } else {
      decoded += text[i];
    }
  }
  if (!base::is_valid_utf8(decoded) || base::hidden_sign(decoded)) {
    return std::nullopt;
  }
  return decoded;
}

base::Result<Query> parse_query(std::string_view text) {
  Query::Items items;
  std::string fault;
  for_each_part(text, '&', [&](std::string_view part) {
    if (part.empty()) {
      return true;
    }
    if (items.size() == kNamesMax) {
      fault = "The query gives more than " + std::to_string(kNamesMax) + " names.";
      return false;
    }
    const std::size_t equals = part.find('=');
    const auto name = percent_decoded(part.substr(0, equals), Plus::kSpace);
    const auto value = percent_decoded(
        equals == std::string_view::npos ? std::string_view() : part.substr(equals + 1),
        Plus::kSpace);
    if (!name || !value || name->empty()) {
      fault = "The query is not name=value pairs in percent-encoded UTF-8.";
      return false;
    }
    if (Query(items).find(*name) != nullptr) {
      fault = "The query gives \"" + *name + "\" more than once.";
      return false;
    }
    items.emplace_back(*name, *value);
    return true;
  });
  if (!fault.empty()) {
    return base::Error{base::ErrorCode::kInvalid, fault};
  }
  return Query(std::move(items));
}

std::optional<std::vector<std::string>> path_segments(std::string_view path) {
  if (path.empty() || path.front() != '/') {
    return std::nullopt;
  }
  std::vector<std::string> segments;
  const bool whole = for_each_part(path.substr(1), '/', [&](std::string_view part) {
    std::optional<std::string> decoded = percent_decoded(part, Plus::kItself);
    if (!decoded) {
      return false;
    }
    segments.push_back(std::move(*decoded));
    return true;
  });
  if (!whole) {
    return std::nullopt;
  }
  return segments;
}

}  // namespace benchwarden::http
