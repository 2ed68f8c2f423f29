#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <memory>
#include <optional>
#include <string>

#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "tell.h"

namespace benchwarden::demo {
namespace {

int fail(const std::string& what) {
  std::cerr << what << "\n";
  return 1;
}

/// For a week from when the demo is made, whenever its story ends.
void give_access(access::Access& people, const std::string& inspector) {
  constexpr std::int64_t kWeekMs = 7 * 24 * 3'600'000LL;
  const base::Instant now = daemon::SystemClock{}.now();
  const auto given = people.give_inspection(
      inspector, {"", access::InspectionScope::kEverything, now, base::Instant{now.ms + kWeekMs}},
      "machine");
  if (!given) give_up(given.error().detail);
}

/// The people of the demo were there before its story: its book is not told of them.
void leave_untold(access::Access& people) {
  const auto changes = people.untold_changes();
  if (!changes) give_up(changes.error().detail);
  for (const access::UntoldChange& change : *changes) {
    if (const auto marked = people.mark_told(change.number); !marked) {
      give_up(marked.error().detail);
    }
  }
}

/// Enters a person; the book will know them by the id they get.
std::string enter_person(access::Access& people, const Person& person) {
  const auto role = access::role_from_name(person.role);
  if (!role) give_up("there is no role " + person.role);
  const auto added = people.add_person(person.name, *role, person.pin, "machine");
  if (!added) give_up(added.error().detail);
  if (*role == access::Role::kInspector) give_access(people, added->id);
  return added->id;
}

struct Wanted {
  std::string data_folder;
  std::string inventory;
  std::string address;
  std::string report;
  std::optional<base::CivilDate> today;  ///< none: the story ends now
};

/// The evening of a day, or now.
base::Instant end_of(const Wanted& wanted) {
  if (!wanted.today) return daemon::SystemClock{}.now();
  const auto zone = base::Zone::find("Europe/London");
  if (!zone) give_up("the system does not know the zone Europe/London");
  constexpr int kEvening = 19 * 60;
  return Almanac(*wanted.today, *zone).at(*wanted.today, kEvening);
}

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

/// In memory where the system has such a place: thousands of commits, each of them safe on a disk
/// before the next, take half a minute.
std::filesystem::path make_workplace() {
  const bool in_memory = ::access("/dev/shm", W_OK) == 0;
  const std::filesystem::path parent =
      in_memory ? std::filesystem::path("/dev/shm") : std::filesystem::temp_directory_path();
  std::string name = (parent / "benchwarden-demo-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) give_up("no folder can be made in " + parent.string());
  return name;
}

/// Tells the demo into `folder`; it is closed again afterwards. Returns the persons.
std::optional<base::JsonArray> tell_into(const std::filesystem::path& folder,
                                         const Wanted& wanted) {
  auto clock = std::make_unique<StoryClock>();
  StoryClock& story_clock = *clock;
  daemon::Options options;
  options.config.data_folder = folder;
  auto workshop =
      daemon::OpenWorkshop::open(options, daemon::OpenWorkshop::IfMissing::kMake, std::move(clock));
  if (!workshop) return std::nullopt;
  const workshop::Ports& ports = (*workshop)->ports();
  base::JsonArray persons;
  const auto introduce = [&](const Person& person) {
    const std::string id = enter_person((*workshop)->access(), person);
    persons.emplace_back(base::JsonObject{
        {"id", id}, {"name", person.name}, {"role", person.role}, {"pin", person.pin}});
    return id;
  };
  const auto files = std::filesystem::path(wanted.inventory).parent_path();
  tell(ports, story_clock, files, end_of(wanted), introduce);
  leave_untold((*workshop)->access());
  if (const auto kept = ports.live.keep(); !kept) give_up(kept.error().detail);
  std::cout << ports.book.head().size << " entries in the book of the demo\n";
  return persons;
}

int run(const Wanted& wanted) {
  if (std::filesystem::exists(std::filesystem::path(wanted.data_folder) / "book.db")) {
    return fail("the data folder is not empty");
  }
  const std::filesystem::path workplace = make_workplace();
  const auto persons = tell_into(workplace, wanted);
  std::error_code failed;
  if (persons) std::filesystem::copy(workplace, wanted.data_folder, failed);
  std::error_code ignored;
  std::filesystem::remove_all(workplace, ignored);
  if (!persons || failed) return fail("the data folder cannot be made: " + failed.message());
  const auto told = tell_facts(wanted, *persons);
  return told ? 0 : fail(told.error().detail);
}

}  // namespace
}  // namespace benchwarden::demo

int main(int argc, char** argv) {
  using benchwarden::base::parse_date;
  const auto today = argc == 6 ? parse_date(argv[5]) : parse_date("1970-01-01");
  if ((argc != 5 && argc != 6) || !today) {
    std::cerr << "usage: benchwarden-demo DATA_FOLDER INVENTORY.toml ADDRESS REPORT.pdf [TODAY]\n"
                 "  TODAY is written YYYY-MM-DD; the story ends in its evening, without it now\n";
    return 2;
  }
  benchwarden::demo::Wanted wanted{argv[1], argv[2], argv[3], argv[4], std::nullopt};
  if (argc == 6) wanted.today = *today;
  return benchwarden::demo::run(wanted);
}
