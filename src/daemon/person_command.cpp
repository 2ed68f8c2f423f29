#include <sodium.h>

#include <algorithm>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

#include "access/token.h"
#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "workshop/restore.h"
#include "workshop/retention.h"

namespace benchwarden::daemon {
namespace {

using Act = PersonOptions::Act;
constexpr std::string_view kBy = "machine";

/// Six digits from the system's random source. The rules for PINs may still refuse them.
std::string make_pin() {
  std::string pin;
  for (int i = 0; i < 6; ++i) pin += static_cast<char>('0' + randombytes_uniform(10));
  return pin;
}

/// The PIN that was given: in its place, or as the first line of standard input for "-".
std::optional<std::string> given_pin(const PersonOptions& wanted) {
  if (wanted.pin != "-") return wanted.pin;
  std::string line;
  std::getline(std::cin, line);
  return line;
}

Exit list(access::Access& access) {
  const auto people = access.people();
  if (!people) return fail(people.error());
  for (const access::Person& person : *people) {
    std::cout << person.id << "  " << (person.name.empty() ? "(erased)" : person.name) << "  "
              << access::role_name(person.role) << (person.active ? "" : "  inactive") << "\n";
  }
  return Exit::kDone;
}

/// Tries PINs of our own making until one passes the rules; a given PIN is tried once.
template <class Attempt>
auto with_pin(const std::optional<std::string>& given, const Attempt& attempt) {
  if (given) return attempt(*given);
  auto result = attempt(make_pin());
  for (int tries = 1; tries < 20 && !result.ok(); ++tries) {
    if (result.error().code != base::ErrorCode::kInvalid) break;
    result = attempt(make_pin());
  }
  return result;
}

Exit add(access::Access& access, const std::filesystem::path& folder, const PersonOptions& wanted) {
  const auto left_out = leave_out_book_ids(access, folder);
  if (!left_out) return fail(left_out.error());
  const auto given = given_pin(wanted);
  std::string pin;
  const auto added = with_pin(given, [&](const std::string& tried) {
    pin = tried;
    return access.add_person(wanted.name, *access::role_from_name(wanted.role), tried, kBy);
  });
  if (!added) return fail(added.error());
  std::cout << "entered " << added->id << " " << added->name
            << (given ? std::string() : ", PIN " + pin) << "\n";
  return Exit::kDone;
}

Exit reset(access::Access& access, const PersonOptions& wanted) {
  const auto given = given_pin(wanted);
  std::string pin;
  const auto done = with_pin(given, [&](const std::string& tried) {
    pin = tried;
    return access.reset_pin(wanted.id, tried, kBy);
  });
  if (!done) return fail(done.error());
  std::cout << wanted.id << " has " << (given ? "the PIN that was given" : "the new PIN " + pin)
            << "\n";
  return Exit::kDone;
}

/// access.db of the folders into which `restore --replace` moved what was there.
std::vector<std::string> people_moved_aside(const std::filesystem::path& folder) {
  std::vector<std::string> found;
  std::error_code failure;
  for (const auto& item : std::filesystem::directory_iterator(folder, failure)) {
    if (!item.path().filename().string().starts_with(workshop::kMovedAside)) continue;
    const std::filesystem::path people = item.path() / "access.db";
    if (std::filesystem::exists(people, failure)) found.push_back(people.string());
  }
  std::sort(found.begin(), found.end());
  return found;
}

/// The rules and the book say whether the name may go, so that the book must be nobody else's.
Exit erase(const Options& options, const std::string& id) {
  const auto workshop = OpenWorkshop::open(options, OpenWorkshop::IfMissing::kRefuse,
                                           std::make_unique<SystemClock>());
  if (!workshop) return workshop.error();
  const auto free = workshop::check_may_forget((*workshop)->ports(), id);
  if (!free) return fail(free.error());
  const auto erased = (*workshop)->access().erase(id, kBy);
  if (!erased) return fail(erased.error());
  std::cout << id << " has no name any more; backups made before hold it until they are gone\n";
  for (const std::string& copy : people_moved_aside(options.config.data_folder)) {
    std::cout << copy << " holds the name until somebody takes that folder away\n";
  }
  return Exit::kDone;
}

/// For a machine that nobody sits at: who has it signs in from elsewhere, and puts another in its
/// place there.
Exit reset_passphrase(access::Access& access, const PersonOptions& wanted) {
  const std::string made = access::new_code() + "-" + access::new_code();
  const auto done = access.set_passphrase(wanted.id, made, "", kBy);
  if (!done) return fail(done.error());
  std::cout << wanted.id << " has the new passphrase " << made << "\n";
  return Exit::kDone;
}

Exit end_with(const base::Status<>& done) { return done ? Exit::kDone : fail(done.error()); }

}  // namespace

Exit person(const Options& options, const PersonOptions& wanted) {
  const std::filesystem::path& folder = options.config.data_folder;
  // The first person may well be entered before the daemon ever ran.
  const auto there = wanted.act == Act::kAdd ? make_folder(folder) : must_hold(folder, "access.db");
  if (!there) return there.error();
  if (wanted.act == Act::kErase) return erase(options, wanted.id);
  const SystemClock clock;
  // Only access.db is opened to be changed, so this works beside a running daemon.
  const auto access = access::Access::open(folder, clock);
  if (!access) return fail(access.error());
  switch (wanted.act) {
    case Act::kList:
      return list(**access);
    case Act::kAdd:
      return add(**access, folder, wanted);
    case Act::kResetPin:
      return reset(**access, wanted);
    case Act::kResetPassphrase:
      return reset_passphrase(**access, wanted);
    case Act::kActivate:
      return end_with((*access)->activate(wanted.id, kBy));
    case Act::kErase:
      break;
    case Act::kDeactivate:
      return end_with((*access)->deactivate(wanted.id, kBy));
  }
  return Exit::kUsage;
}

}  // namespace benchwarden::daemon
