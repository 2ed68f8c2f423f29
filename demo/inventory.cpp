#include "inventory.h"

#include <algorithm>
#include <array>
#include <utility>

namespace benchwarden::demo {
namespace {

const std::string& text_of(const base::Toml& table, std::string_view name) {
  static const std::string kNone;
  const auto found = table.members.find(name);
  return found == table.members.end() ? kNone : found->second.text;
}

void open_weekdays(const base::Toml& workshop, calculations::OpeningDays& opening) {
  static constexpr std::array<std::string_view, 7> kDays{
      "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};
  const auto days = workshop.members.find("opening_days");
  if (days == workshop.members.end()) return;
  opening.open.fill(false);
  for (const base::Toml& row : days->second.items) {
    const auto* day = std::find(kDays.begin(), kDays.end(), text_of(row, "weekday"));
    if (day != kDays.end()) opening.open.at(static_cast<std::size_t>(day - kDays.begin())) = true;
  }
}

void close_days(const base::Toml& closure, const Almanac& almanac,
                calculations::OpeningDays& opening) {
  const base::CivilDate last = almanac.day(text_of(closure, "last_day"));
  for (base::CivilDate day = almanac.day(text_of(closure, "first_day")); day <= last;
       day = base::add_days(day, 1)) {
    opening.closed.push_back(day);
  }
}

/// `things` is filled; closed days do not depend on open ones.
calculations::OpeningDays opening_of(const base::Toml& things, const Almanac& almanac) {
  calculations::OpeningDays opening;
  opening.open.fill(true);
  for (const base::Toml& thing : things.items) {
    if (text_of(thing, "class") == "workshop") open_weekdays(thing, opening);
    if (text_of(thing, "class") == "closure") close_days(thing, almanac, opening);
  }
  std::sort(opening.closed.begin(), opening.closed.end());
  return opening;
}

}  // namespace

std::vector<Person> read_persons(const base::Toml& inventory, const std::string& file) {
  base::FileFaults faults;
  base::TomlReader reader(inventory, file, faults);
  std::vector<Person> persons;
  for (const base::Toml* table : reader.tables("person")) {
    base::TomlReader person(*table, file, faults);
    persons.push_back({person.text("name"), person.text("role"), person.text("pin")});
    person.finish();
  }
  if (!faults.empty()) give_up(base::format_faults(faults));
  return persons;
}

std::vector<workshop::FiledThing> read_things(const base::Toml& inventory, const std::string& file,
                                              const PersonIds& persons,
                                              const forms::Catalog& catalog, Almanac& almanac) {
  const auto fill = [&](const std::string& question) {
    std::string said;
    if (almanac.answer(question, said)) return said;
    const auto person = persons.find(question);
    if (person == persons.end()) give_up(file + ": nobody knows '" + question + "'");
    return person->second;
  };
  const auto things = inventory.members.find("thing");
  if (things == inventory.members.end()) give_up(file + ": no [[thing]]");
  almanac.open(opening_of(filled(things->second, fill), almanac));
  base::Toml file_of_things;
  file_of_things.members["thing"] = filled(things->second, fill);
  base::FileFaults faults;
  base::TomlReader reader(file_of_things, file, faults);
  auto read = workshop::read_filed_things(reader, catalog, faults);
  reader.finish();
  if (!faults.empty()) give_up(base::format_faults(faults));
  return read;
}

}  // namespace benchwarden::demo
