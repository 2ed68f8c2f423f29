#include "print/csv_field.h"

#include <algorithm>
#include <array>

#include "print/clean_text.h"
#include "print/utf8.h"

namespace benchwarden::print {
namespace {

/// Digits with an optional sign "-" and one point: what no spreadsheet runs.
bool is_plain_number(std::string_view text) {
  if (text.starts_with('-')) {
    text.remove_prefix(1);
  }
  const std::size_t point = text.find('.');
  const std::string_view whole = text.substr(0, point);
  const std::string_view places = point == std::string_view::npos ? "0" : text.substr(point + 1);
  const auto all_digits = [](std::string_view part) {
    return !part.empty() &&
           std::all_of(part.begin(), part.end(), [](char c) { return c >= '0' && c <= '9'; });
  };
  return all_digits(whole) && all_digits(places);
}

/// The ASCII starts of a formula and the full-width forms of them that some programs take too.
bool starts_formula(std::string_view text) {
  static constexpr std::array<std::string_view, 11> kStarts = {
      "=", "+", "-", "@", "\t", "\r", "\n", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"};
  return std::any_of(kStarts.begin(), kStarts.end(),
                     [&](std::string_view start) { return text.starts_with(start); });
}

/// Valid UTF-8 without controls but tab and line ends, and without marks of direction.
std::string clean_field(std::string_view text) {
  std::u32string codes = decode_utf8(text);
  for (char32_t& code : codes) {
    const bool kept = code == U'\t' || code == U'\n' || code == U'\r';
    const bool control = code < 0x20 || (code >= 0x7F && code < 0xA0);
    code = (control && !kept) || turns_direction(code) ? kReplacement : code;
  }
  return encode_utf8(codes);
}

}  // namespace

std::string csv_field(std::string_view text) {
  std::string value = clean_field(text);
  if (starts_formula(value) && !is_plain_number(value)) {
    value.insert(0, 1, '\'');
  }
  if (value.find_first_of(",\"\r\n") == std::string::npos) {
    return value;
  }
  std::string quoted = "\"";
  for (const char c : value) {
    quoted += c == '"' ? "\"\"" : std::string(1, c);
  }
  return quoted + "\"";
}

std::string csv_line(const std::vector<std::string_view>& fields) {
  std::string line;
  for (const std::string_view& field : fields) {
    if (&field != &fields.front()) line += ',';
    line += csv_field(field);
  }
  return line + "\r\n";
}

}  // namespace benchwarden::print
