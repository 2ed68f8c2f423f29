#pragma once

#include <optional>
#include <string_view>

namespace benchwarden::forms {

/// What a text field must look like.
enum class TextFormat {
  kAny,
  kMonth,     ///< YYYY-MM
  kTimeZone,  ///< a name of the system's IANA zone data
  kLowCode,   ///< a List of Waste code: three pairs of digits, "dd dd dd"
  kSha256,    ///< 64 lower-case hexadecimal digits
};

/// By the name definitions use: "month", "time-zone", "low-code", "sha256".
std::optional<TextFormat> find_text_format(std::string_view name);
std::string_view text_format_name(TextFormat format);  ///< "" for kAny
/// The shape in signs rather than words ("YYYY-MM"), for refusals.
std::string_view text_format_shape(TextFormat format);
/// The same as a regular expression for JSON Schema; "" where there is none.
std::string_view text_format_pattern(TextFormat format);
bool has_format(std::string_view text, TextFormat format);

}  // namespace benchwarden::forms
