#include <iostream>

#include "base/sha256.h"
#include "base/text.h"
#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "daemon/text_file.h"
#include "workshop/upkeep.h"
#include "workshop/verify_backup.h"
#include "workshop/verify_claims.h"
#include "workshop/verify_export.h"

namespace benchwarden::daemon {
namespace {

void print_lines(const std::string& before, const std::vector<std::string>& lines) {
  // Some of it comes out of files that others made.
  for (const std::string& line : lines) std::cout << before << base::one_line(line) << "\n";
}

void tell_that_it_does_not_hold(const std::string& what) {
  std::cout << what << " does NOT hold what was recorded\n";
}

Exit print_verified(const base::Result<workshop::Verified>& verified, const std::string& what) {
  if (!verified) {
    if (verified.error().code == base::ErrorCode::kDamaged) tell_that_it_does_not_hold(what);
    return fail(verified.error());
  }
  print_lines("", verified->faults);
  print_lines("", verified->notes);
  // Of what could not be read to its end nothing is known.
  if (verified->faults.empty() || verified->head.size > 0) {
    std::cout << verified->head.size << " entries, root " << base::to_hex(verified->head.root)
              << "\n";
  }
  if (!verified->faults.empty()) {
    tell_that_it_does_not_hold(what);
    return Exit::kFaultsFound;
  }
  std::cout << "every stored byte matches its hashes; this shows change, not false input\n";
  return Exit::kDone;
}

Exit print_shown(const base::Result<workshop::Shown>& outcome) {
  if (!outcome) return fail(outcome.error());
  print_lines("", outcome->faults);
  if (!outcome->faults.empty()) {
    std::cout << "it does NOT hold\n";
    return Exit::kFaultsFound;
  }
  print_lines("shown: ", outcome->shown);
  print_lines("not shown: ", outcome->not_shown);
  return Exit::kDone;
}

Exit verify_whole(const Options& options, BookEnd end, const workshop::Definitions& definitions) {
  if (end == BookEnd::kAccept) {
    const auto accepted =
        workshop::accept_book_end(options.config.data_folder, definitions, SystemClock());
    if (!accepted) return fail(accepted.error());
  }
  const std::filesystem::path& folder = options.config.data_folder;
  if (workshop::says_it_is_backup(folder)) {
    return print_verified(workshop::verify_backup(folder, definitions), "the backup");
  }
  return print_verified(workshop::verify_book(folder, definitions), "the data folder");
}

constexpr std::size_t kReportBytesMax = 16'777'216;  // more is never issued

base::Result<std::string> read_named_file(const std::filesystem::path& file,
                                          std::size_t bytes_max = kTextFileBytesMax) {
  auto bytes = read_text_file(file, bytes_max);
  if (bytes) return bytes;
  return base::Error{bytes.error().code, file.string() + " " + bytes.error().detail};
}

/// A file that ends in a signed note, with the line ends that a note has: readers of codes add one,
/// editors leave the last one out or write those of another system.
base::Result<std::string> read_note_file(const std::filesystem::path& file) {
  auto text = read_named_file(file);
  if (!text) return text;
  for (std::size_t at = 0; (at = text->find("\r\n", at)) != std::string::npos;) text->erase(at, 1);
  text->erase(text->find_last_not_of('\n') + 1);
  *text += '\n';
  return text;
}

using GivenKey = std::optional<seal::VerifierKey>;

base::Result<GivenKey> read_key(const VerifyOptions& wanted) {
  if (wanted.key.empty()) return GivenKey();
  const auto key = seal::parse_verifier_key(wanted.key);
  if (!key) return base::Error{key.error().code, "--key: " + key.error().detail};
  const bool has_use = !wanted.checkpoint.empty() || !wanted.proof.empty() ||
                       !wanted.report.empty() || !wanted.export_folder.empty();
  if (has_use) return GivenKey(*key);
  return base::Error{base::ErrorCode::kInvalid,
                     "--key needs what that key must have signed; accepted: --checkpoint, "
                     "--proof, --report or --export"};
}

base::Result<workshop::ClaimedHead> read_head(const VerifyOptions& wanted, const GivenKey& key) {
  if (wanted.head.size) return read_head_words(wanted.head);
  auto note = read_note_file(wanted.checkpoint);
  if (!note) return note.error();
  workshop::ClaimedHead head;
  head.note = *std::move(note);
  head.key = key;
  return head;
}

Exit verify_a_head(const Options& options, const VerifyOptions& wanted, const GivenKey& key,
                   const workshop::Definitions& definitions) {
  const auto head = read_head(wanted, key);
  if (!head) return fail(head.error());
  return print_shown(workshop::verify_head(options.config.data_folder, definitions, *head));
}

Exit verify_a_report(const Options& options, const VerifyOptions& wanted, const GivenKey& key,
                     const workshop::Definitions& definitions) {
  const auto bytes = read_named_file(wanted.report, kReportBytesMax);
  if (!bytes) return fail(bytes.error());
  return print_shown(
      workshop::verify_report_file(options.config.data_folder, definitions, *bytes, key));
}

Exit verify_a_proof(const VerifyOptions& wanted, const GivenKey& key,
                    const workshop::Definitions& definitions) {
  const auto bytes = read_note_file(wanted.proof);
  if (!bytes) return fail(bytes.error());
  return print_shown(workshop::verify_entry_proof(*bytes, key, definitions.catalog));
}

}  // namespace

Exit verify(const Options& options, const VerifyOptions& wanted) {
  const auto key = read_key(wanted);
  if (!key) return fail(key.error());
  const auto loaded = load_definitions(options);
  if (!loaded) return loaded.error();
  const workshop::Definitions& definitions = (*loaded)->definitions;
  if (!wanted.proof.empty()) return verify_a_proof(wanted, *key, definitions);
  if (!wanted.export_folder.empty()) {
    return print_verified(workshop::verify_export(wanted.export_folder, definitions, *key),
                          "the export");
  }
  const auto there = must_hold(options.config.data_folder, "book.db");
  if (!there) return there.error();
  if (!wanted.checkpoint.empty() || wanted.head.size) {
    return verify_a_head(options, wanted, *key, definitions);
  }
  if (!wanted.report.empty()) return verify_a_report(options, wanted, *key, definitions);
  return verify_whole(options, wanted.end, definitions);
}

}  // namespace benchwarden::daemon
