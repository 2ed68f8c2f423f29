#include "plan.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <utility>

namespace benchwarden::demo {
namespace {

using base::CivilDate;

constexpr std::array<const char*, 7> kWeekdays{"monday", "tuesday",  "wednesday", "thursday",
                                               "friday", "saturday", "sunday"};
constexpr std::string_view kBeginning = "-425d";

std::string weekday_of(CivilDate day) {
  const std::chrono::weekday weekday{std::chrono::sys_days{
      std::chrono::year{day.year} / std::chrono::month{static_cast<unsigned>(day.month)} /
      std::chrono::day{static_cast<unsigned>(day.day)}}};
  return kWeekdays.at(weekday.iso_encoding() - 1);
}

/// One of several words.
std::string one_of(const std::vector<std::string>& words, Dice& dice) {
  if (words.empty()) give_up("an entry without anybody who records it");
  const auto last = static_cast<std::int64_t>(words.size()) - 1;
  return words.at(static_cast<std::size_t>(dice.between(0, last)));
}

/// One [[routine.entry]].
struct Step {
  int minutes = 0;
  int days = 0;
  std::vector<std::string> by;
  std::string kind;
  base::Toml fields;
};

struct Routine {
  std::string on;
  CivilDate from;
  CivilDate until;
  std::vector<CivilDate> except;
  int earliest = 0;
  int latest = 0;
  std::int64_t chance = 100;
  std::vector<std::string> each;
  base::Toml let;
  std::vector<Step> steps;
};

Step read_step(const base::Toml& table, const std::string& file, base::FileFaults& faults) {
  base::TomlReader reader(table, file, faults);
  Step step;
  step.minutes = static_cast<int>(reader.integer_or("after", 0));
  step.days = static_cast<int>(reader.integer_or("days", 0));
  step.by = reader.texts("by");
  step.kind = reader.text("kind");
  if (const base::Toml* fields = reader.table("fields")) step.fields = *fields;
  reader.finish();
  return step;
}

Routine read_routine(const base::Toml& table, const std::string& file, const Almanac& almanac,
                     base::FileFaults& faults) {
  base::TomlReader reader(table, file, faults);
  Routine routine;
  routine.on = reader.text("on");
  routine.from = almanac.day(reader.text_or("from", std::string(kBeginning)));
  routine.until = almanac.day(reader.text_or("until", ""));
  for (const std::string& day : reader.texts("except")) routine.except.push_back(almanac.day(day));
  const std::vector<std::string> between = reader.texts("between");
  if (between.size() != 2) {
    reader.fault("between is to be two times of day");
  } else {
    routine.earliest = minute_of(between[0]);
    routine.latest = minute_of(between[1]);
  }
  routine.chance = reader.integer_or("chance", routine.chance);
  routine.each = reader.texts("each");
  if (routine.each.empty()) routine.each = {""};
  if (const base::Toml* let = reader.table("let")) routine.let = *let;
  for (const base::Toml* step : reader.tables("entry")) {
    routine.steps.push_back(read_step(*step, file, faults));
  }
  reader.finish();
  return routine;
}

bool is_first_open_from(CivilDate day, int day_of_month, const Almanac& almanac) {
  if (day.day < day_of_month) return false;
  for (CivilDate before = base::add_days(day, -1);
       before.month == day.month && before.day >= day_of_month;
       before = base::add_days(before, -1)) {
    if (almanac.is_open(before)) return false;
  }
  return true;
}

bool is_on(const Routine& routine, CivilDate day, const Almanac& almanac) {
  if (std::find(routine.except.begin(), routine.except.end(), day) != routine.except.end()) {
    return false;
  }
  if (!almanac.is_open(day)) return false;
  if (routine.on == "open") return true;
  const std::string_view on = routine.on;
  if (on.starts_with("month ")) {
    return is_first_open_from(day, whole_number(on.substr(6)), almanac);
  }
  if (on.starts_with("weeks ")) {
    return base::days_between(routine.from, day) % (7 * whole_number(on.substr(6))) == 0;
  }
  return on.find(weekday_of(day)) != std::string_view::npos;
}

/// The first beginning of an occasion rolls what can be rolled.
std::shared_ptr<Occasion> occasion_of(const Routine& routine, const std::string& it, int count,
                                      Dice& dice) {
  auto occasion = std::make_shared<Occasion>();
  occasion->known = {{"it", it}, {"count", std::to_string(count)}};
  for (const auto& [name, value] : routine.let.members) {
    const std::size_t dots = value.text.find("..");
    if (dots == std::string::npos) {
      occasion->wanted.emplace(name, value);
      continue;
    }
    const std::string_view range = value.text;
    const std::int64_t rolled =
        dice.between(whole_number(range.substr(0, dots)), whole_number(range.substr(dots + 2)));
    occasion->known.emplace(name, std::to_string(rolled));
  }
  return occasion;
}

void plan_day(const Routine& routine, CivilDate day, int count, const Almanac& almanac, Dice& dice,
              std::vector<Planned>& plan) {
  int minute = static_cast<int>(dice.between(routine.earliest, routine.latest));
  for (const std::string& it : routine.each) {
    const auto occasion = occasion_of(routine, it, count, dice);
    for (const Step& step : routine.steps) {
      Planned planned;
      planned.occurred = almanac.at(base::add_days(day, step.days), minute + step.minutes);
      // People tap a few seconds after they pour.
      planned.recorded = {planned.occurred.ms + 1000 * dice.between(4, 50)};
      planned.who = one_of(step.by, dice);
      planned.kind = step.kind;
      planned.fields = step.fields;
      planned.occasion = occasion;
      plan.push_back(std::move(planned));
    }
    ++minute;
  }
}

Planned read_story_entry(const base::Toml& table, const std::string& file, const Almanac& almanac,
                         base::FileFaults& faults, Dice& dice) {
  base::TomlReader reader(table, file, faults);
  Planned planned;
  planned.occurred = almanac.moment(reader.text("at"));
  const auto recorded = reader.maybe_text("recorded");
  planned.recorded = recorded ? almanac.moment(*recorded)
                              : base::Instant{planned.occurred.ms + 1000 * dice.between(4, 50)};
  planned.who = reader.text("by");
  planned.kind = reader.text_or("kind", "correction");
  if (const base::Toml* fields = reader.table("fields")) planned.fields = *fields;
  planned.confirmed = reader.texts("confirmed");
  planned.name = reader.text_or("name", "");
  planned.corrects = reader.text_or("corrects", "");
  planned.reason = reader.text_or("reason", "");
  planned.occasion = std::make_shared<Occasion>();
  reader.finish();
  return planned;
}

}  // namespace

std::vector<Planned> plan_routines(const base::Toml& file, const std::string& name,
                                   const Almanac& almanac, Dice& dice) {
  base::FileFaults faults;
  base::TomlReader reader(file, name, faults);
  std::vector<Planned> plan;
  for (const base::Toml* table : reader.tables("routine")) {
    const Routine routine = read_routine(*table, name, almanac, faults);
    int count = 0;
    for (CivilDate day = routine.from; day <= routine.until; day = base::add_days(day, 1)) {
      if (!is_on(routine, day, almanac) || dice.between(1, 100) > routine.chance) continue;
      plan_day(routine, day, ++count, almanac, dice, plan);
    }
  }
  if (!faults.empty()) give_up(base::format_faults(faults));
  return plan;
}

std::vector<Planned> plan_stories(const base::Toml& file, const std::string& name,
                                  const Almanac& almanac, Dice& dice) {
  base::FileFaults faults;
  base::TomlReader reader(file, name, faults);
  std::vector<Planned> plan;
  for (const base::Toml* table : reader.tables("story")) {
    base::TomlReader story(*table, name, faults);
    story.text("id");
    story.text("tells");
    for (const base::Toml* entry : story.tables("entry")) {
      plan.push_back(read_story_entry(*entry, name, almanac, faults, dice));
    }
    story.finish();
  }
  if (!faults.empty()) give_up(base::format_faults(faults));
  return plan;
}

}  // namespace benchwarden::demo
