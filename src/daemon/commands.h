#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "daemon/config.h"
#include "daemon/head_words.h"
#include "workshop/report_request.h"

namespace benchwarden::daemon {

/// Exit codes, the same for every command; README lists them.
enum class Exit : int {
  kDone = 0,
  kFaultsFound = 1,  ///< verify or rebuild found something
  kUsage = 2,        ///< the command line or a value on it
  kBadData = 3,      ///< configuration, form, report or certificate files cannot be used
  kUnavailable = 4,  ///< data folder locked, disk full, port taken
  kRefused = 5,      ///< understood and not done, e.g. no such person
};

/// Whether the book may be signed with another key than its last checkpoint.
enum class NewKey { kRefuse, kMake };

struct Options {
  Config config;
  std::optional<std::filesystem::path> data_files;  ///< --data-files
  NewKey new_key = NewKey::kRefuse;                 ///< --new-key
};

Exit serve(const Options& options);

struct ReportOptions {
  workshop::ReportWords words;
  std::filesystem::path output;  ///< empty: standard output
};
Exit report(const Options& options, const ReportOptions& wanted);

struct CalculateOptions {
  std::string name;                 ///< none: list the names
  std::vector<std::string> inputs;  ///< "name=value"; none: say what the calculation wants
  bool json = false;
};
Exit calculate(const Options& options, const CalculateOptions& wanted);

/// What to do about a book whose end does not fit head.txt: only tell, or take it as it stands.
enum class BookEnd { kTell, kAccept };
struct VerifyOptions {
  BookEnd end = BookEnd::kTell;
  std::filesystem::path export_folder;  ///< of these at most one is given; none: the book
  std::filesystem::path checkpoint;
  std::filesystem::path proof;
  std::filesystem::path report;
  HeadWords head;   ///< off a printed page
  std::string key;  ///< a verifier key; not for a head that nobody signed
};
Exit verify(const Options& options, const VerifyOptions& wanted);
Exit rebuild(const Options& options);

/// Looks for faults in a rule pack of the workshop's own; needs no data folder.
Exit check_rules(const Options& options, const std::string& file);

/// Writes the whole book in open formats into the new folder `to`.
Exit run_export(const Options& options, const std::filesystem::path& to);

/// Copies book and people into a new folder in `to`, and checks the copy.
Exit backup(const Options& options, const std::filesystem::path& to);

/// Puts the book and the people of a backup into the data folder.
struct RestoreOptions {
  std::filesystem::path from;
  bool replace = false;  ///< what is there is moved aside
  HeadWords head;        ///< kept elsewhere
};
Exit restore(const Options& options, const RestoreOptions& wanted);

/// Things under care from a TOML file, or a whole book from an export; one of the two.
struct ImportOptions {
  std::string file;    ///< TOML; things under care
  std::string person;  ///< who enters them: "p1"
  bool dry_run = false;
  std::filesystem::path book;  ///< folder of an export
};
Exit run_import(const Options& options, const ImportOptions& wanted);

struct PersonOptions {
  enum class Act { kList, kAdd, kResetPin, kResetPassphrase, kActivate, kDeactivate, kErase };
  Act act = Act::kList;
  std::string id;
  std::string name;
  std::string role;
  std::optional<std::string> pin;  ///< "-": from standard input; none: one is made and printed
};
Exit person(const Options& options, const PersonOptions& wanted);

}  // namespace benchwarden::daemon
