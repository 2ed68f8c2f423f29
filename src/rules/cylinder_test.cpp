#include "rules/cylinder_test.h"

#include <algorithm>
#include <cctype>

#include "calculations/due_date.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

constexpr int kYearsMax = 100;

bool is_word_sign(char sign) { return std::isalnum(static_cast<unsigned char>(sign)) != 0; }
bool is_digit(char sign) { return std::isdigit(static_cast<unsigned char>(sign)) != 0; }

/// "3AA" and "3AA2265" are the word "3AA"; "3AAX" is not.
bool is_word(std::string_view token, std::string_view word) {
  if (!token.starts_with(word)) return false;
  token.remove_prefix(word.size());
  return std::all_of(token.begin(), token.end(), is_digit);
}

std::vector<std::string> tokens_of(std::string_view text) {
  std::vector<std::string> tokens;
  std::string token;
  for (const char sign : text) {
    if (is_word_sign(sign)) {
      token.push_back(static_cast<char>(std::toupper(static_cast<unsigned char>(sign))));
    } else {
      tokens.push_back(std::move(token));
      token.clear();
    }
  }
  tokens.push_back(std::move(token));
  return tokens;
}

int years_of(const RuleFigure& figure) {
  return static_cast<int>(std::clamp<std::int64_t>(figure.value.thousandths / 1000, 0, kYearsMax));
}

bool is_listed(std::string_view setting, std::string_view word) {
  const auto words = listed_words(setting);
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// A litre of water weighs a kilogram, to the exactness of a stamp.
bool holds_at_most(const entries::Fields& cylinder, const RuleFigure& limit) {
  const auto litres = tallies::measure(cylinder, "water_capacity_l", "l");
  const auto kilograms = quantities::convert({limit.value, quantities::find_unit(limit.unit)},
                                             *quantities::find_unit("kg"));
  return litres && kilograms && litres->value <= kilograms->value;
}

}  // namespace

bool has_specification(const entries::Fields& cylinder, std::string_view words) {
  const auto tokens = tokens_of(tallies::word(cylinder, "specification"));
  const auto wanted = listed_words(words);
  return std::any_of(tokens.begin(), tokens.end(), [&](const std::string& token) {
    return std::any_of(wanted.begin(), wanted.end(),
                       [&](const std::string& word) { return is_word(token, word); });
  });
}

bool speaks_of(const Rule& rule, const entries::Fields& cylinder) {
  const std::string_view words = rule.setting("specifications");
  const bool others = rule.setting("match") == "none-of";
  if (words.empty()) return true;
  if (tallies::word(cylinder, "specification").empty()) return false;
  return has_specification(cylinder, words) != others;
}

bool star_counts(const Rule& rule, const entries::Fields& cylinder) {
  const RuleFigure* limit = rule.figure("star_capacity");
  return limit != nullptr && tallies::word(cylinder, "star_mark") == "yes" &&
         is_listed(rule.setting("star_gases"), tallies::word(cylinder, "gas")) &&
         has_specification(cylinder, rule.setting("star_specifications")) &&
         holds_at_most(cylinder, *limit);
}

int test_interval_years(const Rule& rule, const entries::Fields& cylinder) {
  const RuleFigure* with_star = rule.figure("star_interval");
  const bool starred = with_star != nullptr && star_counts(rule, cylinder);
  const int usual = years_of(starred ? *with_star : *rule.figure("interval"));
  const auto own = tallies::measure(cylinder, "test_interval_years", "a");
  if (!own) return usual;
  const auto years =
      static_cast<int>(std::min<std::int64_t>(own->value.thousandths / 1000, kYearsMax));
  const RuleFigure* approved = rule.figure("approved");
  const bool may_be_longer =
      approved != nullptr && !tallies::word(cylinder, "interval_approval").empty();
  return std::clamp(years, 1, may_be_longer ? std::max(usual, years_of(*approved)) : usual);
}

std::optional<base::CivilMonth> test_due(const Rule& rule, const entries::Fields& cylinder) {
  const auto stamp = base::parse_month(tallies::word(cylinder, "last_test_month"));
  if (!stamp) return std::nullopt;
  return calculations::stamp_due(*stamp, test_interval_years(rule, cylinder));
}

std::optional<CylinderFilling> last_filling(const Scene& scene, const findings::Subject& cylinder) {
  std::optional<CylinderFilling> last;
  for (const tallies::Record* record : told_of(scene, cylinder, {"cylinder-change"})) {
    const auto day = record->date("filled_on");
    const bool refilled = record->word("change") == "refilled";
    if (!day && !refilled) continue;
    const CylinderFilling one{day ? *day : scene.day_of(record->at), record};
    if (!last || one.day > last->day) last = one;
  }
  return last;
}

}  // namespace benchwarden::rules
