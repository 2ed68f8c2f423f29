#pragma once

#include <charconv>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"

namespace benchwarden::http {

/// The named values after the "?", percent-decoded, in the order given; each name once.
class Query {
 public:
  using Items = std::vector<std::pair<std::string, std::string>>;

  Query() = default;
  explicit Query(Items items) : items_(std::move(items)) {}

  /// The value of that name, or nullptr when it was not given.
  [[nodiscard]] const std::string* find(std::string_view name) const;
  [[nodiscard]] const Items& items() const { return items_; }

 private:
  Items items_;
};

/// Digits and nothing else.
template <class T>
std::optional<T> whole_number(std::string_view text) {
  T value{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

/// What a "+" stands for: itself in a path, a space in a query.
enum class Plus { kItself, kSpace };

/// Nothing for a "%" without two hex digits, for invalid UTF-8 and for signs that are not seen
/// (`base::hidden_sign`).
std::optional<std::string> percent_decoded(std::string_view text, Plus plus);

/// kInvalid: bad percent-encoding, an empty name, a name given twice, more than 32 names.
base::Result<Query> parse_query(std::string_view text);

/// The decoded parts between the slashes: "/a/b%20c" is {"a", "b c"}, "/" is {""}. Nothing when
/// the path does not begin with a slash or is badly encoded.
std::optional<std::vector<std::string>> path_segments(std::string_view path);

}  // namespace benchwarden::http
