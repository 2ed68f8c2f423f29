#include <cstdlib>
#include <fstream>
#include <iostream>
#include <memory>
#include <string>

#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "inventory.h"
#include "story.h"

namespace benchwarden::demo {
namespace {

constexpr std::uint64_t kSeed = 0x5A17;  // any number; the same one tells the same story

int fail(const std::string& what) {
  std::cerr << what << "\n";
  return 1;
}

/// Enters the persons; the book will know them by the ids they get.
base::JsonArray enter_persons(access::Access& people, Diary& diary, const Inventory& inventory) {
  base::JsonArray persons;
  for (const Person& person : inventory.persons) {
    const auto role = access::role_from_name(person.role);
    const auto added = people.add_person(person.name, role.value(), person.pin, "machine");
    if (!added) {
      std::cerr << added.error().detail << "\n";
      continue;
    }
    if (person.competent) {
      const auto done =
          people.set_competence(added->id, access::Access::Competence::kEntered, "machine");
      if (!done) std::cerr << done.error().detail << "\n";
    }
    diary.meet(person.name, added->id, person.role, person.competent);
    persons.emplace_back(base::JsonObject{
        {"id", added->id}, {"name", person.name}, {"role", person.role}, {"pin", person.pin}});
  }
  return persons;
}

struct Wanted {
  std::string data_folder;
  std::string inventory;
  std::string address;
  std::string report;
};

/// For people on the console, and the same for programs in demo.json.
base::Status<> tell_facts(const Wanted& wanted, const base::JsonArray& persons) {
  std::cout << "\nAddress  " << wanted.address << "\nData     " << wanted.data_folder
            << "\nReport   " << wanted.report << "\n";
  for (const base::Json& person : persons) {
    std::cout << "  " << *person.find("name")->string() << " (" << *person.find("role")->string()
              << ")  PIN " << *person.find("pin")->string() << "\n";
  }
  std::ofstream file(wanted.data_folder + "/demo.json");
  file << base::write_json(base::JsonObject{{"address", wanted.address},
                                            {"persons", persons},
                                            {"reports", base::JsonArray{wanted.report}}})
       << "\n";
  if (!file.flush()) {
    return base::Error{base::ErrorCode::kUnavailable, "demo.json cannot be written"};
  }
  return base::Done{};
}

int run(const Wanted& wanted) {
  const base::Instant now = daemon::SystemClock{}.now();
  auto clock = std::make_unique<StoryClock>();
  StoryClock& story_clock = *clock;
  daemon::Options options;
  options.config.data_folder = wanted.data_folder;
  auto workshop =
      daemon::OpenWorkshop::open(options, daemon::OpenWorkshop::IfMissing::kMake, std::move(clock));
  if (!workshop) return fail("the data folder cannot be opened");
  const workshop::Ports& ports = (*workshop)->ports();
  if (ports.book.head().size != 0) return fail("the data folder is not empty");
  const auto inventory = read_inventory(wanted.inventory, ports.definitions.catalog);
  if (!inventory) return fail(base::format_faults(inventory.error()));

  Diary diary(ports, story_clock, kSeed);
  const base::Zone zone = *base::Zone::find("Europe/London");
  const base::CivilDate today = zone.date_of(now);
  const base::Instant opened{zone.start_of(base::add_days(today, -427)).ms + 8 * 3'600'000LL};
  story_clock.set(opened);
  const base::JsonArray persons = enter_persons((*workshop)->access(), diary, *inventory);
  for (const workshop::FiledThing& thing : inventory->things) {
    diary.record(opened, "Office", "register-change", register_fields(thing, "added"));
  }
  tell_story(diary, today, now);
  const auto kept = ports.live.keep();
  if (!kept) return fail(kept.error().detail);
  std::cout << diary.entries() << " entries in the book of the demo\n";
  const auto told = tell_facts(wanted, persons);
  return told ? 0 : fail(told.error().detail);
}

}  // namespace
}  // namespace benchwarden::demo

int main(int argc, char** argv) {
  if (argc != 5) {
    std::cerr << "usage: benchwarden-demo DATA_FOLDER INVENTORY.toml ADDRESS REPORT.pdf\n";
    return 2;
  }
  return benchwarden::demo::run({argv[1], argv[2], argv[3], argv[4]});
}
