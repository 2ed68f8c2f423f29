#include "almanac.h"

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <iterator>
#include <sstream>
#include <utility>

namespace benchwarden::demo {
namespace {

bool is_time(std::string_view word) { return word.find(':') != std::string_view::npos; }

}  // namespace

void give_up(const std::string& why) {
  std::cerr << "the demo cannot be told: " << why << "\n";
  std::exit(1);  // NOLINT(concurrency-mt-unsafe): one thread
}

std::vector<std::string> words_of(std::string_view text) {
  std::istringstream stream{std::string(text)};
  return {std::istream_iterator<std::string>(stream), {}};
}

int whole_number(std::string_view digits) {
  int number = 0;
  const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (digits.empty() || read.ec != std::errc() || read.ptr != digits.data() + digits.size()) {
    give_up("'" + std::string(digits) + "' is no whole number");
  }
  return number;
}

int minute_of(std::string_view time) {
  const std::size_t colon = time.find(':');
  if (colon == std::string_view::npos) give_up("'" + std::string(time) + "' is no time of day");
  return whole_number(time.substr(0, colon)) * 60 + whole_number(time.substr(colon + 1));
}

Almanac::Almanac(base::CivilDate today, base::Zone zone) : today_(today), zone_(zone) {
  opening_.open.fill(true);
}

bool Almanac::is_open(base::CivilDate day) const { return calculations::is_open(opening_, day); }

base::CivilDate Almanac::step(base::CivilDate from, const std::string& word) const {
  if (word == "open") {
    while (!is_open(from)) from = base::add_days(from, -1);
    return from;
  }
  if (const auto date = base::parse_date(word)) return *date;
  if (word.size() < 3 || (word[0] != '+' && word[0] != '-')) give_up("'" + word + "' is no step");
  const int sign = word[0] == '+' ? 1 : -1;
  const int count = whole_number(std::string_view(word).substr(1, word.size() - 2));
  if (word.back() == 'd') return base::add_days(from, sign * count);
  if (word.back() == 'w') return base::add_days(from, sign * 7 * count);
  const auto later = calculations::add_months(from, count);
  if (word.back() != 'm' || sign < 0 || !later) give_up("'" + word + "' is no step");
  return *later;
}

base::CivilDate Almanac::day(std::string_view steps) const {
  base::CivilDate day = today_;
  for (const std::string& word : words_of(steps)) day = step(day, word);
  return day;
}

base::Instant Almanac::moment(std::string_view steps) const {
  const std::size_t space = steps.rfind(' ');
  const std::string_view last = space == std::string_view::npos ? steps : steps.substr(space + 1);
  if (!is_time(last)) return zone_.start_of(day(steps));
  return at(day(steps.substr(0, steps.size() - last.size())), minute_of(last));
}

base::Instant Almanac::at(base::CivilDate day, int minute) const {
  const base::Instant start = zone_.start_of(day);
  const base::Instant even{start.ms + minute * std::int64_t{60'000}};
  const int moved = zone_.local(even).offset_minutes - zone_.local(start).offset_minutes;
  return {even.ms - moved * std::int64_t{60'000}};
}

bool Almanac::answer(const std::string& question, std::string& said) const {
  const std::size_t space = std::min(question.find(' '), question.size());
  const std::string asked = question.substr(0, space);
  if (asked == "moment") {
    said = base::format_rfc3339_utc(moment(question.substr(space)));
    return true;
  }
  if (asked != "day" && asked != "month" && asked != "days") return false;
  const base::CivilDate on = day(question.substr(space));
  if (asked == "day") said = base::format_date(on);
  if (asked == "month") said = base::format_month(base::month_of(on));
  if (asked == "days") said = std::to_string(base::days_between(on, today_));
  return true;
}

base::Toml read_toml(const std::string& path) {
  std::ifstream stream(path, std::ios::binary);
  if (!stream) give_up(path + " cannot be read");
  const std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  auto parsed = base::parse_toml(text, path);
  if (!parsed) give_up(base::format_faults(parsed.error()));
  return *std::move(parsed);
}

}  // namespace benchwarden::demo
