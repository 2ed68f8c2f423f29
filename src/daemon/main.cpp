#include <sys/stat.h>

#include <CLI/CLI.hpp>
#include <iostream>

#include "base/text.h"
#include "daemon/commands.h"
#include "daemon/own_process.h"

namespace benchwarden::daemon {
namespace {

/// Values of the command line, laid over those of the configuration file once it has been read.
struct Given {
  std::string config_file;
  std::string data_folder;
  std::string address;
  std::optional<std::uint16_t> port;
  std::string data_files;
  bool new_key = false;
};

void add_common(CLI::App& command, Given& given) {
  command.add_option("--config", given.config_file, "Configuration file (TOML)");
  command.add_option("--data", given.data_folder, "Data folder");
  command.add_option("--data-files", given.data_files,
                     "Read forms/ and reports/ from this folder; marks reports not for issue");
}

std::optional<Options> options_from(const Given& given) {
  Options options;
  options.config.data_folder = default_data_folder();
  if (!given.config_file.empty()) {
    auto config = read_config(given.config_file, options.config);
    if (!config) {
      std::cerr << base::format_faults(config.error());
      return std::nullopt;
    }
    options.config = *std::move(config);
  }
  if (!given.data_folder.empty()) options.config.data_folder = given.data_folder;
  if (!given.address.empty()) options.config.address = given.address;
  if (given.port) options.config.port = *given.port;
  if (!given.data_files.empty()) options.data_files = given.data_files;
  if (given.new_key) options.new_key = NewKey::kMake;
  return options;
}

/// The two words of a tree head, which need each other.
std::pair<CLI::Option*, CLI::Option*> take_head(CLI::App& command, HeadWords& words,
                                                const std::string& help) {
  CLI::Option* size = command.add_option("--size", words.size, help);
  CLI::Option* root = command.add_option("--root", words.root, "Its root, in hex or base64");
  size->needs(root);
  root->needs(size);
  return {size, root};
}

std::string not_empty(const std::string& text) { return text.empty() ? "is empty" : ""; }

CLI::App* add_serve(CLI::App& program, Given& given) {
  CLI::App* command = program.add_subcommand("serve", "Run the daemon until SIGTERM or SIGINT");
  add_common(*command, given);
  command->add_option("--address", given.address, "IP address to listen on (127.0.0.1)")
      ->check([](const std::string& text) {
        return is_ip_address(text) ? "" : "'" + text + "'; accepted: " + kAddressAccepted;
      });
  command->add_option("--port", given.port, "Port to listen on (8417; 0: any free one)")
      ->check(CLI::Range(0, 65535));
  command->add_flag("--new-key", given.new_key,
                    "Sign the book with a new signing.key where that of its last checkpoint is "
                    "lost; once");
  return command;
}

CLI::App* add_report(CLI::App& program, Given& given, ReportOptions& wanted) {
  CLI::App* command = program.add_subcommand("report", "Write a report without recording it");
  add_common(*command, given);
  workshop::ReportWords& words = wanted.words;
  command->add_option("name", words.name, "Which report, such as waste-month")->required();
  command->add_option("--month", words.month, "Month, YYYY-MM");
  command->add_option("--year", words.year, "Year, YYYY");
  command->add_option("--subject", words.subject, "What it is about, such as n1 or gauge/g1");
  command->add_option("--from", words.from, "First day, YYYY-MM-DD");
  command->add_option("--to", words.to, "Last day, YYYY-MM-DD");
  command->add_option("--format", words.format, "pdf, html, csv, json or svg");
  command->add_option("--paper", words.paper, "a4 or letter; for labels also a6, a7 or roll-62");
  command->add_option("--output", wanted.output, "File to write; standard output without it");
  return command;
}

CLI::App* add_calculate(CLI::App& program, Given& given, CalculateOptions& wanted) {
  CLI::App* command = program.add_subcommand("calculate", "Calculate, with steps and source");
  command->add_option("--data-files", given.data_files,
                      "Read forms/ and reports/ from this folder");
  command->add_option("name", wanted.name, "Name of the calculation; without it all are listed");
  command->add_option("inputs", wanted.inputs, "name=value ...; without any the inputs are listed");
  command->add_flag("--json", wanted.json, "Print JSON, with unrounded numbers");
  return command;
}

CLI::App* add_export(CLI::App& program, Given& given, std::string& folder) {
  CLI::App* command =
      program.add_subcommand("export", "Write the whole book in open formats into a new folder");
  add_common(*command, given);
  command->add_option("--to", folder, "Folder to make")->required();
  return command;
}

CLI::App* add_import(CLI::App& program, Given& given, ImportOptions& wanted) {
  CLI::App* command = program.add_subcommand(
      "import", "Enter things under care from a file, or a whole book from an export");
  add_common(*command, given);
  command->add_option("file", wanted.file,
                      "TOML file of things under care; all or none is entered");
  command->add_option("--as", wanted.person, "Id of the manager who enters them, such as p1");
  command->add_flag("--dry-run", wanted.dry_run,
                    "Show what would be entered, or every fault, and record nothing");
  CLI::Option* book = command->add_option(
      "--book", wanted.book, "Folder of an export; its book is put into an empty data folder");
  for (const char* other : {"file", "--as", "--dry-run"}) {
    book->excludes(command->get_option(other));
  }
  return command;
}

/// What is asked of `backup` and `restore`.
struct Copies {
  const CLI::App* backup = nullptr;
  std::string to;
  const CLI::App* restore = nullptr;
  RestoreOptions wanted;
};

void add_backup(CLI::App& program, Given& given, Copies& copies) {
  CLI::App* command = program.add_subcommand(
      "backup", "Copy the book and the people, beside a serving daemon, and check the copy");
  add_common(*command, given);
  command->add_option("--to", copies.to, "Folder that is there; the backup is a new folder in it")
      ->required();
  copies.backup = command;
}

void add_restore(CLI::App& program, Given& given, Copies& copies) {
  CLI::App* command = program.add_subcommand(
      "restore", "Put the book and the people of a backup into a data folder nobody has open");
  add_common(*command, given);
  RestoreOptions& wanted = copies.wanted;
  command->add_option("--from", wanted.from, "Folder of the backup")->required();
  command->add_flag("--replace", wanted.replace,
                    "Move a book and people that are there into a folder beside them");
  take_head(*command, wanted.head,
            "With --root: a tree head on paper that the book must go on from");
  copies.restore = command;
}

void add_copies(CLI::App& program, Given& given, Copies& copies) {
  add_backup(program, given, copies);
  add_restore(program, given, copies);
}

/// What came of the one of them that was asked for; none where neither was.
std::optional<Exit> run_copies(const Options& options, const Copies& copies) {
  if (copies.backup->parsed()) return backup(options, copies.to);
  if (copies.restore->parsed()) return restore(options, copies.wanted);
  return std::nullopt;
}

CLI::App* add_verify(CLI::App& program, Given& given, VerifyOptions& wanted) {
  CLI::App* command = program.add_subcommand(
      "verify",
      "Check every stored byte and signature of the book, or what is named; changes nothing");
  add_common(*command, given);
  CLI::Option* accept = command->add_flag_callback(
      "--accept-end", [&wanted] { wanted.end = BookEnd::kAccept; },
      "Take a book whose end does not fit head.txt as it stands, after a person has looked at "
      "what verify found");
  CLI::Option* folder = command->add_option("--export", wanted.export_folder,
                                            "An export alone, by its folder; needs no book");
  CLI::Option* note =
      command->add_option("--checkpoint", wanted.checkpoint,
                          "Whether the book begins with what this signed note (a file) stands for");
  CLI::Option* size =
      take_head(*command, wanted.head, "The same of a printed head: how many entries").first;
  CLI::Option* proof = command->add_option("--proof", wanted.proof,
                                           "The proof file of one entry alone; needs no book");
  CLI::Option* report = command->add_option("--report", wanted.report,
                                            "Whether the book says that this very PDF was issued");
  CLI::Option* key = command->add_option("--key", wanted.key,
                                         "Verifier key that must have signed, from old paper");
  for (CLI::Option* given : {folder, note, proof, report, key}) given->check(not_empty);
  for (CLI::Option* unsigned_one : {accept, size}) key->excludes(unsigned_one);
  const std::vector<CLI::Option*> either{accept, folder, note, size, proof, report};
  for (CLI::Option* one : either) {
    for (CLI::Option* other : either) {
      if (one != other) one->excludes(other);
    }
  }
  return command;
}

CLI::App* add_rules(CLI::App& program, Given& given, std::string& file) {
  CLI::App* command =
      program.add_subcommand("rules", "Look for faults in a rule pack of the workshop's own");
  command->add_option("--data-files", given.data_files,
                      "Read forms/ and reports/ from this folder");
  command->add_option("file", file, "TOML file of the pack")->required();
  return command;
}

void add_person_act(CLI::App& person, PersonOptions& wanted, PersonOptions::Act act,
                    const std::string& name, const std::string& help) {
  using Act = PersonOptions::Act;
  CLI::App* command = person.add_subcommand(name, help);
  command->fallthrough();  // so that --data may stand after the subcommand
  command->callback([&wanted, act] { wanted.act = act; });
  if (act == Act::kAdd) {
    command->add_option("--name", wanted.name, "Name shown on the tablet")->required();
    command->add_option("--role", wanted.role, "technician, manager or inspector")
        ->required()
        ->check(CLI::IsMember({"technician", "manager", "inspector"}));
  } else if (act != Act::kList) {
    command->add_option("id", wanted.id, "Id of the person, such as p1")->required();
  }
  if (act == Act::kAdd || act == Act::kResetPin) {
    command->add_option(
        "--pin", wanted.pin,
        "6 to 12 digits, or - to read them from standard input, out of sight of the list "
        "of processes; without it a PIN is made and printed");
  }
}

CLI::App* add_person(CLI::App& program, Given& given, PersonOptions& wanted) {
  using Act = PersonOptions::Act;
  CLI::App* person = program.add_subcommand("person", "People, roles and PINs on this machine");
  add_common(*person, given);
  add_person_act(*person, wanted, Act::kList, "list", "Everybody who is entered");
  add_person_act(*person, wanted, Act::kAdd, "add", "Enter a person");
  add_person_act(*person, wanted, Act::kResetPin, "reset-pin",
                 "Give a person a new PIN and end a lock-out; recorded in the list of changes");
  add_person_act(*person, wanted, Act::kResetPassphrase, "reset-passphrase",
                 "Make and print a passphrase, which lets in from browsers elsewhere, too");
  add_person_act(*person, wanted, Act::kDeactivate, "deactivate",
                 "Keep a person from signing in; refused for the last active manager");
  add_person_act(*person, wanted, Act::kActivate, "activate",
                 "Let a person sign in again, with the PIN of before");
  add_person_act(
      *person, wanted, Act::kErase, "erase",
      "Take the name of somebody inactive away for good, once nothing they signed has to "
      "be kept; wants the daemon stopped");
  person->allow_extras();  // named by command_fault
  return person;
}

/// What is wrong with the command named after `app`: none is given, or a word that is none.
std::optional<std::string> command_fault(const CLI::App& app) {
  const std::vector<std::string> rest = app.remaining();
  if (rest.empty() && !app.get_subcommands().empty()) return std::nullopt;
  std::vector<std::string> names;
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    names.push_back(command->get_name());
  }
  const std::string what =
      rest.empty() ? "a command is needed" : "'" + rest.front() + "' is not known here";
  return what + "; accepted: " + base::join(names, ", ");
}

/// Says on standard error where one is not.
bool are_commands_known(std::initializer_list<const CLI::App*> apps) {
  for (const CLI::App* app : apps) {
    const auto fault = app->parsed() ? command_fault(*app) : std::nullopt;
    if (!fault) continue;
    std::cerr << *fault << "\nRun with --help for more information.\n";
    return false;
  }
  return true;
}

int run(int argc, char** argv) {
  umask(S_IRWXG | S_IRWXO);  // a book, its people and its reports are their owner's to read
  CLI::App program{"Benchwarden keeps a workshop's safety and hazardous-waste book.",
                   "benchwarden"};
  program.set_version_flag("--version", BENCHWARDEN_VERSION);
  program.footer(
      "Exit codes: 0 done, 1 faults found, 2 usage, 3 configuration or data files, "
      "4 data folder or port not available, 5 refused.");

  Given given;
  ReportOptions wanted_report;
  CalculateOptions wanted_calculation;
  PersonOptions wanted_person;
  const CLI::App* serve_command = add_serve(program, given);
  const CLI::App* report_command = add_report(program, given, wanted_report);
  const CLI::App* calculate_command = add_calculate(program, given, wanted_calculation);
  VerifyOptions wanted_check;
  const CLI::App* verify_command = add_verify(program, given, wanted_check);
  CLI::App* rebuild_command = program.add_subcommand(
      "rebuild", "Fold the book anew from its first entry and compare with the stored tallies");
  add_common(*rebuild_command, given);
  std::string export_folder;
  ImportOptions wanted_import;
  const CLI::App* export_command = add_export(program, given, export_folder);
  const CLI::App* import_command = add_import(program, given, wanted_import);
  Copies copies;
  add_copies(program, given, copies);
  std::string pack_file;
  const CLI::App* rules_command = add_rules(program, given, pack_file);
  const CLI::App* person_command = add_person(program, given, wanted_person);
  program.allow_extras();  // named by command_fault

  try {
    program.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    const int code = program.exit(error);
    return code == 0 ? 0 : static_cast<int>(Exit::kUsage);
  }
  if (!are_commands_known({&program, person_command})) return static_cast<int>(Exit::kUsage);
  const auto options = options_from(given);
  if (!options) return static_cast<int>(Exit::kBadData);
  if (serve_command->parsed()) return static_cast<int>(serve(*options));
  if (report_command->parsed()) return static_cast<int>(report(*options, wanted_report));
  if (calculate_command->parsed()) {
    return static_cast<int>(calculate(*options, wanted_calculation));
  }
  if (verify_command->parsed()) return static_cast<int>(verify(*options, wanted_check));
  if (rules_command->parsed()) return static_cast<int>(check_rules(*options, pack_file));
  if (export_command->parsed()) return static_cast<int>(run_export(*options, export_folder));
  if (import_command->parsed()) return static_cast<int>(run_import(*options, wanted_import));
  if (const auto done = run_copies(*options, copies)) return static_cast<int>(*done);
  if (rebuild_command->parsed()) return static_cast<int>(rebuild(*options));
  return static_cast<int>(person(*options, wanted_person));
}

}  // namespace
}  // namespace benchwarden::daemon

int main(int argc, char** argv) {
  benchwarden::daemon::share_heaps();
  return benchwarden::daemon::run(argc, argv);
}
