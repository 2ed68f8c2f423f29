#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace benchwarden::base {

bool is_valid_utf8(std::string_view text);
/// Unicode code points of valid UTF-8.
std::size_t count_code_points(std::string_view text);
/// The first of them; nothing of an empty text.
std::string_view first_sign(std::string_view text);
/// The first sign that no reader sees though it may change what is read: controls (C0, DEL, C1),
/// marks of direction (UAX #9), breaks of line and paragraph, the zero-width space, the soft
/// hyphen, the byte order mark, tags, code points that are no characters. Joiners stay: words of
/// some scripts are spelled with them. U+FFFD where the text is no UTF-8.
std::optional<char32_t> hidden_sign(std::string_view text);
/// Whether a reader would see nothing: spaces of any script, fillers and joiners alone.
bool is_blank(std::string_view text);
/// "U+202E"
std::string sign_name(char32_t code_point);

/// The text as it may stand within a line of ours: each sign that `hidden_sign` names, and each
/// byte that is no UTF-8, by its name in angle brackets.
std::string one_line(std::string_view text);
/// Digits alone, as the number itself is written: nothing before or between them, no zero before
/// others, at most 2^64 - 1.
std::optional<std::uint64_t> whole_number(std::string_view text);

/// `{name}` in `pattern` is replaced by its value; unknown names stay as they are.
std::string fill(std::string_view pattern,
                 const std::vector<std::pair<std::string_view, std::string>>& values);
std::string join(const std::vector<std::string>& parts, std::string_view separator);

/// Whole digits in threes from the right, with a narrow no-break space between: "205 000".
std::string grouped_digits(std::string_view digits);

/// Lower-case letters, digits and hyphens, 1 … 40 characters, starting with a letter: the form of
/// every id and code in a book.
bool is_slug(std::string_view text);

}  // namespace benchwarden::base
