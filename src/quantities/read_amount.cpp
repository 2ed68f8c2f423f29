#include "quantities/read_amount.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string>

namespace benchwarden::quantities {
namespace {

struct Spelling {
  std::string_view text;  ///< small letters
  std::string_view unit;
};
constexpr std::array kSpellings{
    Spelling{"fl oz", "fl_oz_us"},
    Spelling{"floz", "fl_oz_us"},
    Spelling{"uk fl oz", "fl_oz_imp"},
    Spelling{"gal", "gal_us"},
    Spelling{"uk gal", "gal_imp"},
    Spelling{"litre", "l"},
    Spelling{"litres", "l"},
    Spelling{"liter", "l"},
    Spelling{"liters", "l"},
    Spelling{"barg", "bar"},
    Spelling{"bar g", "bar"},
    Spelling{"bara", "bar_abs"},
    Spelling{"bar a", "bar_abs"},
    Spelling{"bar abs", "bar_abs"},
    Spelling{"psig", "psi"},
    Spelling{"psia", "psi_abs"},
    Spelling{"psi abs", "psi_abs"},
    Spelling{"degc", "c"},
    Spelling{"deg c", "c"},
    Spelling{"degf", "f"},
    Spelling{"deg f", "f"},
    Spelling{"day", "d"},
    Spelling{"hour", "h"},
    Spelling{"hours", "h"},
    Spelling{"kg/m3", "kg_m3"},
    Spelling{"kgf/cm2", "kgf_cm2"},
    Spelling{"inch", "in"},
    Spelling{"inches", "in"},
};

/// ASCII letters made small; other bytes stay.
std::string small(std::string_view text) {
  std::string result(text);
  for (char& c : result) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return result;
}

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

/// How much of the text is the number: digits, sign, point, comma, and an exponent with digits.
std::size_t number_length(std::string_view text) {
  const auto digit = [&](std::size_t at) {
    return at < text.size() && text[at] >= '0' && text[at] <= '9';
  };
  std::size_t at = text.starts_with('-') || text.starts_with('+') ? 1 : 0;
  while (digit(at) || (at < text.size() && (text[at] == '.' || text[at] == ','))) ++at;
  if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
    std::size_t after = at + 1;
    if (after < text.size() && (text[after] == '-' || text[after] == '+')) ++after;
    if (digit(after)) {
      while (digit(after)) ++after;
      at = after;
    }
  }
  return at;
}

/// One comma with three digits after it and one to three before: thousands or decimals?
bool ambiguous(std::string_view number) {
  const std::size_t comma = number.find(',');
  if (comma == std::string_view::npos || number.size() != comma + 4) return false;
  const std::string_view whole = number.substr(0, comma);
  const std::size_t digits = whole.size() - (whole.find_first_of("+-") == 0 ? 1 : 0);
  return digits >= 1 && digits <= 3 && !(digits == 1 && whole.ends_with('0'));
}

base::Error refused(std::string_view why) { return {base::ErrorCode::kInvalid, std::string(why)}; }

}  // namespace

const Unit* unit_as_written(std::string_view text) {
  if (text == "mPa") return nullptr;  // a thousandth of a pascal
  const std::string wanted = small(text);
  for (const Spelling& spelling : kSpellings) {
    if (spelling.text == wanted) return find_unit(spelling.unit);
  }
  const std::span<const Unit> all = all_units();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Unit& unit) {
    return unit.id == wanted || small(unit.symbol) == wanted;
  });
  return found == all.end() || wanted.empty() ? nullptr : &*found;
}

base::Result<Amount> read_amount(std::string_view text) {
  const std::string_view given = trimmed(text);
  const std::size_t length = number_length(given);
  std::string number(given.substr(0, length));
  if (ambiguous(number)) {
    return refused("can be read in two ways; write it without thousands, with a point");
  }
  std::replace(number.begin(), number.end(), ',', '.');
  const char* first = number.data() + (number.starts_with('+') ? 1 : 0);
  const char* last = number.data() + number.size();
  Amount amount;
  const auto read = std::from_chars(first, last, amount.value);
  if (read.ec != std::errc() || read.ptr != last || !std::isfinite(amount.value)) {
    return refused("is not a number such as 28, 1.25 or 1,25, alone or with a unit");
  }
  const std::string_view unit = trimmed(given.substr(length));
  if (unit.empty()) return amount;
  amount.unit = unit_as_written(unit);
  if (amount.unit == nullptr) return refused("has an unknown unit");
  return amount;
}

}  // namespace benchwarden::quantities
