// Makes a book of a wanted size as a busy shop would have filled it, for what is measured by size:
//   bench_book FOLDER INVENTORY.toml ENTRIES LAST_DAY
// The book ends with the last open day up to LAST_DAY. Best made in memory and copied: each entry
// is committed by itself, as a person would send it.
#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <memory>
#include <string>

#include "busy_shop.h"
#include "daemon/open_workshop.h"
#include "inventory.h"
#include "workshop/register_file.h"

namespace benchwarden::bench {
namespace {

using demo::give_up;

constexpr int kOpenDaysOfAWeek = 5;

class Folder {
 public:
  Folder(const std::filesystem::path& path, std::string inventory)
      : path_(path), inventory_(std::move(inventory)) {
    auto clock = std::make_unique<demo::StoryClock>();
    clock_ = clock.get();
    daemon::Options options;
    options.config.data_folder = path;
    auto opened = daemon::OpenWorkshop::open(options, daemon::OpenWorkshop::IfMissing::kMake,
                                             std::move(clock));
    if (!opened) give_up("the folder cannot be opened");
    workshop_ = *std::move(opened);
  }

  void fill(std::int64_t entries, base::CivilDate last_day) {
    const auto zone = base::Zone::find("Europe/London");
    if (!zone) give_up("the system does not know the zone Europe/London");
    const auto days = static_cast<int>(entries * 7 / (kEntriesOfADay * kOpenDaysOfAWeek));
    const base::CivilDate first_day = base::add_days(last_day, -days);
    demo::Almanac almanac(first_day, *zone);  // of the inventory's days, which come before it
    const base::Toml inventory = demo::read_toml(inventory_);
    clock_->set(almanac.at(base::add_days(first_day, -1), 0));
    enter_persons(inventory);
    enter_things(inventory, almanac);
    BusyShop shop(workshop_->ports(), *clock_, almanac,
                  {actors_.at("manager"), actors_.at("technician")}, last_day);
    for (int day = 0; day <= days; ++day) shop.live(base::add_days(first_day, day));
    if (const auto kept = workshop_->ports().live.keep(); !kept) give_up(kept.error().detail);
    std::cout << workshop_->ports().book.head().size << "\n";
  }

 private:
  void enter_persons(const base::Toml& inventory) {
    base::JsonArray told;
    for (const demo::Person& person : demo::read_persons(inventory, inventory_)) {
      const auto role = access::role_from_name(person.role);
      const auto added = workshop_->access().add_person(person.name, *role, person.pin, "machine");
      if (!added) give_up(added.error().detail);
      persons_[person.name] = added->id;
      actors_[person.role] = {added->id, person.role, true};
      told.emplace_back(
          base::JsonObject{{"id", added->id}, {"role", person.role}, {"pin", person.pin}});
    }
    const auto untold = workshop_->access().untold_changes();
    if (!untold) give_up(untold.error().detail);
    for (const access::UntoldChange& change : *untold) {
      if (!workshop_->access().mark_told(change.number)) give_up("people cannot be entered");
    }
    std::ofstream file(path_ / "demo.json");
    file << base::write_json(base::JsonObject{{"persons", told}}) << "\n";
    if (!file.flush()) give_up("demo.json cannot be written");
  }

  void enter_things(const base::Toml& inventory, demo::Almanac& almanac) {
    demo::Dice dice(1);
    demo::Diary diary(workshop_->ports(), *clock_, almanac, dice);
    for (const demo::Person& person : demo::read_persons(inventory, inventory_)) {
      diary.meet(person, persons_.at(person.name));
    }
    const auto& catalog = workshop_->ports().definitions.catalog;
    for (const workshop::FiledThing& thing :
         demo::read_things(inventory, inventory_, persons_, catalog, almanac)) {
      diary.enter(clock_->now(), "Office", workshop::register_fields(thing, "added"),
                  thing.confirmed);
    }
  }

  std::filesystem::path path_;
  std::string inventory_;
  demo::StoryClock* clock_ = nullptr;
  std::unique_ptr<daemon::OpenWorkshop> workshop_;
  demo::PersonIds persons_;
  std::map<std::string, workshop::Actor> actors_;
};

}  // namespace
}  // namespace benchwarden::bench

int main(int argc, char** argv) {
  std::int64_t entries = 0;
  const std::string wanted = argc == 5 ? argv[3] : "";
  std::from_chars(wanted.data(), wanted.data() + wanted.size(), entries);
  const auto last_day = benchwarden::base::parse_date(argc == 5 ? argv[4] : "");
  if (entries < 1 || !last_day) {
    std::cerr << "usage: bench_book FOLDER INVENTORY.toml ENTRIES LAST_DAY (YYYY-MM-DD)\n";
    return EXIT_FAILURE;
  }
  benchwarden::bench::Folder(argv[1], argv[2]).fill(entries, *last_day);
}
