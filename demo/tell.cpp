#include "tell.h"

#include <algorithm>
#include <utility>

namespace benchwarden::demo {
namespace {

constexpr std::uint64_t kSeed = 0x5A17;  // any number; the same one tells the same
constexpr std::string_view kOpened = "-427d 08:00";

void meet_persons(Diary& diary, const base::Toml& inventory, const std::string& file,
                  const Introduce& introduce) {
  for (const Person& person : read_persons(inventory, file)) {
    diary.meet(person, introduce(person));
  }
}

void fill_cylinders(Diary& diary, const base::Toml& routine) {
  const auto cylinders = routine.members.find("cylinder");
  if (cylinders == routine.members.end()) return;
  for (const base::Toml& one : cylinders->second.items) {
    const auto number = [&](const char* name) {
      return static_cast<double>(one.members.at(name).integer);
    };
    diary.fill(one.members.at("id").text, number("litres"), number("bar"), number("spent"));
  }
}

}  // namespace

Almanac tell(const workshop::Ports& ports, StoryClock& clock, const DemoFiles& files,
             base::Instant now, const Introduce& introduce) {
  const auto zone = base::Zone::find("Europe/London");
  if (!zone) give_up("the system does not know the zone Europe/London");
  Almanac almanac(zone->date_of(now), *zone);
  Dice dice(kSeed);
  Diary diary(ports, clock, almanac, dice);
  const std::string inventory_file = files / "inventory.toml";
  const base::Toml inventory = read_toml(inventory_file);
  const base::Instant opened = almanac.moment(kOpened);
  clock.set(opened);
  meet_persons(diary, inventory, inventory_file, introduce);
  for (const workshop::FiledThing& thing : read_things(inventory, inventory_file, diary.persons(),
                                                       ports.definitions.catalog, almanac)) {
    diary.enter(opened, "Office", workshop::register_fields(thing, "added"), thing.confirmed);
  }

  base::Toml routine = read_toml(files / "routine.toml");
  fill_cylinders(diary, routine);
  routine.members.erase("cylinder");
  std::vector<Planned> plan = plan_routines(routine, files / "routine.toml", almanac, dice);
  std::vector<Planned> stories =
      plan_stories(read_toml(files / "stories.toml"), files / "stories.toml", almanac, dice);
  std::move(stories.begin(), stories.end(), std::back_inserter(plan));
  std::stable_sort(plan.begin(), plan.end(),
                   [](const auto& a, const auto& b) { return a.recorded < b.recorded; });
  for (const Planned& planned : plan) {
    if (planned.recorded < now) diary.record(planned);
  }
  clock.set(now);
  return almanac;
}

}  // namespace benchwarden::demo
