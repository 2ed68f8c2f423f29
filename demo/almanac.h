#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/civil_date.h"
#include "base/toml.h"
#include "base/zone.h"
#include "calculations/due_date.h"

namespace benchwarden::demo {

/// Ends the program: a demo half told is of no use.
[[noreturn]] void give_up(const std::string& why);

/// The days of the invented workshop, told by steps from its last one.
///
/// "-20d" is twenty days before today, "-3w" three weeks, "+12m" twelve months on; "open" goes back
/// to the last day the workshop was open. Steps are taken in their order: "open -3w" is as many
/// weeks before the last open day, hence on the same day of the week. A time of day ends a moment:
/// "open -3w 17:30"; without one it is the beginning of the day. YYYY-MM-DD is a day of its own.
class Almanac {
 public:
  Almanac(base::CivilDate today, base::Zone zone);

  /// Opening days and closed days, as the register has them.
  void open(calculations::OpeningDays opening) { opening_ = std::move(opening); }
  [[nodiscard]] bool is_open(base::CivilDate day) const;

  [[nodiscard]] base::CivilDate today() const { return today_; }
  [[nodiscard]] const base::Zone& zone() const { return zone_; }
  [[nodiscard]] base::CivilDate day(std::string_view steps) const;
  [[nodiscard]] base::Instant moment(std::string_view steps) const;
  /// When the clocks of the workshop show it; also on the days on which they are changed.
  [[nodiscard]] base::Instant at(base::CivilDate day, int minute) const;
  /// {day STEPS}, {month STEPS}, {days STEPS}: a date, its month, the days from it to today;
  /// {moment STEPS}: in UTC. False for other words.
  bool answer(const std::string& question, std::string& said) const;

 private:
  [[nodiscard]] base::CivilDate step(base::CivilDate from, const std::string& word) const;

  base::CivilDate today_;
  base::Zone zone_;
  calculations::OpeningDays opening_;
};

std::vector<std::string> words_of(std::string_view text);
int whole_number(std::string_view digits);
/// "17:30" in minutes.
int minute_of(std::string_view time);

/// The value with what stands in braces in its texts replaced by the answer to it.
template <class Answer>
base::Toml filled(base::Toml value, const Answer& answer) {
  for (base::Toml& item : value.items) item = filled(std::move(item), answer);
  for (auto& [name, member] : value.members) member = filled(std::move(member), answer);
  std::string text;
  std::size_t at = 0;
  while (true) {
    const std::size_t begin = value.text.find('{', at);
    const std::size_t end = value.text.find('}', begin);
    if (begin == std::string::npos || end == std::string::npos) break;
    text +=
        value.text.substr(at, begin - at) + answer(value.text.substr(begin + 1, end - begin - 1));
    at = end + 1;
  }
  value.text = text + value.text.substr(at);
  return value;
}

/// The file as it stands, braces unfilled.
base::Toml read_toml(const std::string& path);

}  // namespace benchwarden::demo
