#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace benchwarden::base {

/// Order of UTF-16 code units, in which RFC 8785 sorts members.
bool utf16_less(std::string_view a, std::string_view b);
/// In quotes, with the shortest escapes.
void append_json_string(std::string_view text, std::string& out);

/// Writes one JSON text from front to back, without a tree. Members stand as they are given.
class JsonText {
 public:
  explicit JsonText(std::size_t expected_bytes = 0) { text_.reserve(expected_bytes); }
  void null() { token("null"); }
  void boolean(bool value) { token(value ? "true" : "false"); }
  void number(std::string_view written) { token(written); }
  void string(std::string_view text);
  void name(std::string_view member);
  void open_object() { token("{"); }
  void close_object() { text_ += '}'; }
  void open_array() { token("["); }
  void close_array() { text_ += ']'; }
  std::string take() { return std::move(text_); }

 private:
  void token(std::string_view bytes);
  /// A comma, unless what comes next is the first of its kind or the value of a name.
  void separate();
  std::string text_;
};

/// Reads a JSON text without blanks from front to back. Whoever calls knows what must come next,
/// and holds what was read to the text again: a second way to write the same is not refused here.
class JsonInput {
 public:
  explicit JsonInput(std::string_view text) : rest_(text) {}
  /// Whether these bytes come next; they are passed over then.
  bool take(std::string_view bytes);
  std::optional<std::string> string();
  /// The bytes of a number, or what stands in its place.
  std::string_view number();
  [[nodiscard]] bool at_end() const { return rest_.empty(); }

 private:
  std::optional<char> escaped();
  std::string_view rest_;
};

}  // namespace benchwarden::base
