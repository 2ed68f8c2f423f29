#include <iostream>

#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "daemon/text_file.h"
#include "workshop/import_book.h"
#include "workshop/register_import.h"

namespace benchwarden::daemon {
namespace {

Exit import_book(const Options& options, const std::filesystem::path& from) {
  const auto loaded = load_definitions(options);
  if (!loaded) return loaded.error();
  const SystemClock clock;
  const auto outcome =
      workshop::import_book(from, options.config.data_folder, (*loaded)->definitions, clock);
  if (const auto* error = std::get_if<base::Error>(&outcome)) return fail(*error);
  if (const auto* faults = std::get_if<book::ExportFaults>(&outcome)) {
    for (const std::string& fault : *faults) std::cerr << "benchwarden: " << fault << "\n";
    std::cerr << "benchwarden: nothing was imported\n";
    return Exit::kFaultsFound;
  }
  const auto& imported = std::get<workshop::ImportedBook>(outcome);
  std::cout << imported.entries << " entries and " << imported.attachments
            << " attachments imported, root " << imported.root_hex << "\n"
            << "enter the persons anew; nobody gets an id that signed an entry of this book\n";
  return Exit::kDone;
}

/// Whoever imports is taken at the word of the person at this machine: no PIN is asked for, and
/// the entries say so.
base::Result<workshop::Actor> find_actor(const access::Access& access, const std::string& id) {
  const auto person = access.person(id);
  if (!person) return person.error();
  if (!person->active) {
    return base::Error{base::ErrorCode::kForbidden, id + " is not active; see 'person activate'"};
  }
  return workshop::Actor{person->id, std::string(access::role_name(person->role)), false};
}

Exit print_outcome(const std::string& file, const workshop::ImportOutcome& outcome, bool dry_run) {
  if (const auto* error = std::get_if<base::Error>(&outcome)) return fail(*error);
  if (const auto* faults = std::get_if<workshop::ImportFaults>(&outcome)) {
    for (const workshop::ImportFault& fault : *faults) {
      std::cerr << workshop::format_import_fault(file, fault) << "\n";
    }
    std::cerr << "benchwarden: nothing was imported\n";
    return Exit::kFaultsFound;
  }
  for (const auto& thing : std::get<std::vector<workshop::ImportedThing>>(outcome)) {
    std::cout << act_name(thing.act) << " " << thing.thing_class << "/" << thing.thing;
    for (const std::string& field : thing.fields) std::cout << " " << field;
    std::cout << "\n";
  }
  if (dry_run) std::cout << "dry run: nothing was recorded\n";
  return Exit::kDone;
}

}  // namespace

Exit run_import(const Options& options, const ImportOptions& wanted) {
  if (wanted.file.empty() == wanted.book.empty()) {
    return fail({base::ErrorCode::kInvalid,
                 "accepted: a TOML file of things under care, or --book with the folder of an "
                 "export"});
  }
  if (!wanted.book.empty()) return import_book(options, wanted.book);
  if (wanted.person.empty()) {
    return fail({base::ErrorCode::kInvalid, "--as is missing; accepted: the id of a manager"});
  }
  const auto toml = read_text_file(wanted.file);
  if (!toml) return fail({base::ErrorCode::kInvalid, wanted.file + ": " + toml.error().detail});
  // The first things are entered once there is a manager, and before there is a book.
  const auto there = must_hold(options.config.data_folder, "access.db");
  if (!there) return there.error();
  const auto workshop =
      OpenWorkshop::open(options, OpenWorkshop::IfMissing::kMake, std::make_unique<SystemClock>());
  if (!workshop) return workshop.error();
  const auto actor = find_actor((*workshop)->access(), wanted.person);
  if (!actor) return fail(actor.error());
  const auto mode = wanted.dry_run ? workshop::ImportMode::kDryRun : workshop::ImportMode::kRecord;
  return print_outcome(wanted.file, import_register((*workshop)->ports(), *actor, *toml, mode),
                       wanted.dry_run);
}

}  // namespace benchwarden::daemon
